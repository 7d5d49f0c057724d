/** What stands in the file of a briefing: the plan, and the run packed. */

import { readRun, type Run } from '../lib/run';
import type { Plan } from '../lib/types';

/** A figure as the engine writes it: SI, with its unit. */
export interface Value {
  value: number;
  unit: string;
}

export interface BallCard {
  stage: number;
  launched_during: number;
  material: string;
  ball: Value;
  ball_tolerance: Value;
  seat: Value;
  seat_depth: Value;
  launch_at: Value;
  rate_cut_at: Value;
  landing_rate: Value;
  landing: { p10: Value; p50: Value; p90: Value };
  missing_at: Value;
  transit: Value;
  chosen: { before: Value; highest: Value; allowed: boolean; visible: boolean; signature: { rise: Value; delay: Value } };
}

export interface StagePlan {
  stage: number;
  ports: Value;
  planned_rate: Value;
  rate_ceiling: Value;
  pressure: { surface: Value };
  shut_in: Value;
  clean: Value;
  slurry: Value;
  mass: Value;
  time: Value;
  seats_passed: number;
}

export interface BriefingPlan extends Omit<Plan, 'header'> {
  header: Plan['header'] & { invented: boolean; note: string; datum: string; prepared_by: string };
  balls: BallCard[] | null;
  stages: StagePlan[] | null;
}

export interface BriefingData {
  plan: BriefingPlan;
  standing: string;
  cautions: { subject: string; rule: string }[];
  trip: Value;
  setting_ball: { ball: Value; seat: Value } | null;
  seed: number;
  /** Time between samples; none where the job was not pumped. */
  sample: Value | null;
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
