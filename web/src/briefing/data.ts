/** What stands in the file of a briefing: the plan, and the run packed. */

import { readRun, type Run } from '../lib/run';
import type { Plan, Si } from '../lib/types';

export interface BriefingData {
  plan: Omit<Plan, 'figures' | 'layout' | 'setting' | 'casing_packer' | 'assumptions'>;
  standing: string;
  cautions: { subject: string; rule: string }[];
  seed: number;
  /** Time between samples; none where the job was not pumped. */
  sample: Si | null;
  /** Why the job could not be pumped. */
  unpumped: string | null;
}

const textOf = (id: string) => document.getElementById(id)?.textContent ?? '';

export const readData = (): BriefingData => JSON.parse(textOf('data')) as BriefingData;

/** The run; none where the job was not pumped. */
export async function unpack(): Promise<Run | null> {
  const text = textOf('run');
  if (text === '') return null;
  const letters = atob(text);
  const bytes = new Uint8Array(letters.length);
  for (let i = 0; i < letters.length; i++) bytes[i] = letters.charCodeAt(i);
  const plain = new Blob([bytes]).stream().pipeThrough(new DecompressionStream('deflate'));
  return readRun(await new Response(plain).arrayBuffer());
}
