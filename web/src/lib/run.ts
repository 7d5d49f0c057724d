/** A simulated run as it comes from the server, and what is asked of it at a moment. */

export interface RunEvent {
  time: number;
  kind: string;
  stage: number;
  text: string;
}

export interface Label {
  kind: string;
  stage: number;
  from: number;
  until: number | null;
  text: string;
}

export interface Trace {
  stage: number;
  states: [number, 'closed' | 'open' | 'isolated'][];
}

export interface BallTrace {
  stage: number;
  diameter: number;
  places: [number, unknown, number][];
}

export interface StageRun {
  stage: number;
  rock: { length: number; net_pressure: number } | null;
}

/** Where a run is from that was not simulated here. */
export interface Loaded {
  /** Names of its files. */
  files: string[];
  /** What they leave out of the picture, in words. */
  missing: string[];
  /** Columns that are not used. */
  unused: string[];
  /** First digits of the hash of the input they were made from, where they tell it. */
  input: string | null;
}

export interface Run {
  count: number;
  /** Seconds. */
  time: Float64Array;
  /** Every other channel in SI units, by its name. */
  channel: Map<string, Float32Array>;
  events: RunEvent[];
  labels: Label[];
  sleeves: Trace[];
  balls: BallTrace[];
  stages: StageRun[];
  finished: boolean;
  findings: { id: string; severity: string; message: string }[];
  /** Where it is from; none where it was simulated here. */
  loaded?: Loaded;
}

/** A quantity in the run's description: its number in SI, as number or with its unit. */
function si(value: unknown): number {
  if (typeof value === 'number') return value;
  if (value && typeof value === 'object' && 'value' in value) return Number((value as { value: number }).value);
  return Number.NaN;
}

interface Description {
  samples: number;
  channels: { name: string }[];
  run: {
    events: { time: unknown; kind: string; stage: number; text: string }[];
    labels: { kind: string; stage: number; from: unknown; until: unknown; text: string }[];
    sleeves: { stage: number; states: [unknown, 'closed' | 'open' | 'isolated'][] }[];
    balls: { stage: number; diameter: unknown; places: [unknown, unknown, unknown][] }[];
    stages: { stage: number; rock: { length: unknown; net_pressure: unknown } | null }[];
    finished: boolean;
    findings: { id: string; severity: string; message: string }[];
  };
}

/** Takes a run apart: its description, then the channels. */
export function readRun(bytes: ArrayBuffer): Run {
  const length = new DataView(bytes).getUint32(0, true);
  const about = JSON.parse(new TextDecoder().decode(new Uint8Array(bytes, 4, length))) as Description;
  const count = about.samples;
  let at = 4 + length;
  const time = new Float64Array(bytes, at, count);
  at += 8 * count;
  const channel = new Map<string, Float32Array>();
  for (const { name } of about.channels) {
    if (name === 'time') continue;
    channel.set(name, new Float32Array(bytes, at, count));
    at += 4 * count;
  }
  const r = about.run;
  return {
    count,
    time,
    channel,
    events: r.events.map((e) => ({ ...e, time: si(e.time) })),
    labels: r.labels.map((l) => ({ ...l, from: si(l.from), until: l.until === null ? null : si(l.until) })),
    sleeves: r.sleeves.map((s) => ({ stage: s.stage, states: s.states.map(([t, state]) => [si(t), state]) })),
    balls: r.balls.map((b) => ({
      stage: b.stage,
      diameter: si(b.diameter),
      places: b.places.map(([t, where, depth]) => [si(t), where, si(depth)]),
    })),
    stages: r.stages.map((s) => ({
      stage: s.stage,
      rock: s.rock ? { length: si(s.rock.length), net_pressure: si(s.rock.net_pressure) } : null,
    })),
    finished: r.finished,
    findings: r.findings,
  };
}

/** The last sample at or before a moment. */
export function sampleAt(run: Run, time: number): number {
  let low = 0;
  let high = run.count - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((run.time[middle] ?? 0) <= time) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** Proppant in what stands a volume behind the meter at a sample, kg/m³: what went past the meter so much earlier. None
 * where that was before the job, or where the run does not tell it. */
export function loadBehind(run: Run, sample: number, volume: number): number {
  const slurry = run.channel.get('job_slurry');
  const sand = run.channel.get('concentration');
  const then = (slurry?.[sample] ?? 0) - volume;
  if (!slurry || !sand || !(then > 0)) return 0;
  let low = 0;
  let high = sample;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((slurry[middle] ?? 0) < then) low = middle + 1;
    else high = middle;
  }
  return sand[low] ?? 0;
}

/** Value of a channel at a sample, SI. */
export const valueAt = (run: Run, name: string, sample: number) => run.channel.get(name)?.[sample] ?? Number.NaN;

/** State of the sleeve of a stage at a moment. */
export function sleeveAt(run: Run, stage: number, time: number) {
  const trace = run.sleeves.find((s) => s.stage === stage);
  return trace?.states.findLast(([t]) => t <= time)?.[1] ?? 'closed';
}

export interface BallNow {
  stage: number;
  diameter: number;
  depth: number;
  moving: boolean;
}

/** Balls in the string at a moment, each where it is. */
export function ballsAt(run: Run, time: number): BallNow[] {
  const sample = sampleAt(run, time);
  const out: BallNow[] = [];
  for (const ball of run.balls) {
    const last = ball.places.findLast(([t]) => t <= time);
    if (!last) continue;
    const where = typeof last[1] === 'string' ? last[1] : 'seated';
    if (where === 'in-launcher' || where === 'surface-lines' || where === 'broken') continue;
    const moving = where === 'travelling' && valueAt(run, 'ball', sample) === ball.stage;
    const depth = moving ? valueAt(run, 'ball_depth', sample) : last[2];
    out.push({ stage: ball.stage, diameter: ball.diameter, depth, moving });
  }
  return out;
}

/** What is happening, in one sentence: the last event, and the ball that is on its way. */
export function sentenceAt(run: Run, time: number): string {
  const event = run.events.findLast((e) => e.time <= time);
  const sample = sampleAt(run, time);
  const stage = valueAt(run, 'open_stage', sample);
  const ball = valueAt(run, 'ball', sample);
  const there = event?.kind === 'ball-landed' && event.stage === ball;
  const way = ball > 0 && !there ? `ball ${ball} is on its way` : '';
  // A record may not tell which stage takes fluid.
  const open = stage > 0 ? `Stage ${stage} takes fluid` : stage === 0 ? 'Fluid goes out at the toe' : '';
  const parts = [open, way].filter((p) => p !== '').join(', ');
  const now = parts === '' ? '' : `${parts.charAt(0).toUpperCase()}${parts.slice(1)}.`;
  const last = event ? `Last: ${event.text}.` : '';
  return [now, last].filter((p) => p !== '').join(' ') || 'The record tells no event yet.';
}
