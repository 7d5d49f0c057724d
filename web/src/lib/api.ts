/** Requests to the server this page came from. */

import { readRun, type Run } from './run';
import type { FaultDoc, Finding, Plan } from './types';

/** What the server refused, in its own words. */
export class Refused extends Error {
  constructor(
    message: string,
    readonly status: number,
  ) {
    super(message);
  }
}

async function ask(path: string, method: 'GET' | 'POST' | 'PUT', body?: unknown): Promise<Response> {
  const init: RequestInit = { method };
  if (body !== undefined) {
    init.headers = { 'content-type': 'application/json' };
    init.body = JSON.stringify(body);
  }
  let answer: Response;
  try {
    answer = await fetch(path, init);
  } catch {
    throw new Refused('The program does not answer. Start it again; what is typed here is not lost.', 0);
  }
  if (answer.ok) return answer;
  const text = await answer.text();
  let said = text;
  try {
    said = (JSON.parse(text) as { error?: string }).error ?? text;
  } catch {
    // Not JSON: the text is the message.
  }
  throw new Refused(said, answer.status);
}

export const readJob = async () =>
  (await (await ask('/api/job', 'GET')).json()) as { text: string; hash: string };

export const saveJob = async (text: string, base: string) =>
  ((await (await ask('/api/job', 'PUT', { text, base })).json()) as { hash: string }).hash;

export const checkJob = async (text: string) =>
  (await (await ask('/api/check', 'POST', { text })).json()) as { complete: boolean; findings: Finding[] };

export const planJob = async (text: string | null) =>
  (await (await ask('/api/plan', 'POST', text === null ? {} : { text })).json()) as Plan;

export const openFigure = async (figure: string, text: string | null) =>
  ((await (await ask('/api/working', 'POST', text === null ? { figure } : { figure, text })).json()) as { text: string })
    .text;

export const readFaults = async () => (await (await ask('/api/faults', 'GET')).json()) as FaultDoc[];

/** How a run is asked for. */
export interface RunOf {
  faults: string[];
  noise: boolean;
  /** Seconds between samples, and round events; those of the engine where none. */
  sample?: number;
  fine?: number;
}

export async function runJob(text: string | null, of: RunOf): Promise<Run> {
  const body = text === null ? of : { text, ...of };
  return readRun(await (await ask('/api/run', 'POST', body)).arrayBuffer());
}
