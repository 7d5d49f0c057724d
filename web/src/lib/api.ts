/** Requests to the server this page came from. */

import { readRun, type Run } from './run';
import type { Explained, FaultDoc, FormTable, Plan, Units } from './types';

/** What the server refused, in its own words. */
export class Refused extends Error {
  constructor(
    message: string,
    readonly status: number,
  ) {
    super(message);
  }
}

/** An edit of a single field: what to write, or nothing to take it out. */
export interface Edit {
  path: string;
  value: string | null;
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

async function json<T>(path: string, method: 'GET' | 'POST' | 'PUT', body?: unknown): Promise<T> {
  return (await (await ask(path, method, body)).json()) as T;
}

export const readJob = () => json<{ text: string; hash: string }>('/api/job', 'GET');

export const saveJob = async (text: string, base: string) =>
  (await json<{ hash: string }>('/api/job', 'PUT', { text, base })).hash;

export const planJob = (text: string, units?: Units) => json<Plan>('/api/plan', 'POST', { text, units });

export const formOf = (text: string) => json<{ tables: FormTable[]; broken: string | null }>('/api/form', 'POST', { text });

export const editJob = async (text: string, edits: Edit[]) =>
  (await json<{ text: string }>('/api/edit', 'POST', { text, edits })).text;

export const openFigure = async (figure: string, text: string, units?: Units) =>
  (await json<{ text: string }>('/api/working', 'POST', { figure, text, units })).text;

export const explain = (id: string) => json<Explained>(`/api/checks/${encodeURIComponent(id)}`, 'GET');

export const documentOf = async (name: string) =>
  (await ask(`/api/documents/${encodeURIComponent(name)}`, 'GET')).blob();

export const readFaults = () => json<FaultDoc[]>('/api/faults', 'GET');

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
