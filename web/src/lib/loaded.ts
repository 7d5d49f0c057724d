/** A run read from CSV files: channels, and events, states and labels where they are given. Which file is which
 * is told by its head. */

import { Column, numberOf, quoted, readSheet, unitFor, WrongFile, type Head, type Sheet, type Taker, type Where } from './csv';
import { CHANNELS, EVENTS, TITLES, type Unit } from './kinds';
import type { BallTrace, Label, Run, RunEvent, StageRun, Trace } from './run';
import type { Scene } from './types';

type Kind = 'channels' | 'events' | 'states' | 'labels';

/** Plain names of a recorder for channels of a run. */
const PLAIN: Record<string, string> = { pressure: 'treating_pressure', rate: 'slurry_rate' };
const STATES = ['open', 'isolated', 'closed'] as const;

/** What the files gave. */
interface Found {
  files: Partial<Record<Kind, string>>;
  time: number[];
  channel: Map<string, Float32Array>;
  unused: string[];
  events: RunEvent[];
  labels: Label[];
  sleeves: Map<number, Trace>;
  balls: Map<number, [number, unknown, number][]>;
  /** First digits of the hash of the input, as the comments tell it. */
  input: string | null;
}

const nameOf = (head: Head) => PLAIN[head.name] ?? head.name;

function kindOfSheet(sheet: Sheet): Kind {
  const names = sheet.heads.map(nameOf);
  const has = (name: string) => names.includes(name);
  if (has('from') && has('until') && has('fault')) return 'labels';
  if (has('event') && has('what')) return 'events';
  if (names.some((n) => /^(sleeve_\d+|ball_\d+_depth|toe_path)$/.test(n))) return 'states';
  if (names.some((n) => n !== 'time' && CHANNELS.has(n))) return 'channels';
  const found = `the head has no column of a run: ${quoted(sheet.heads.map((h) => h.name).join(', '))}`;
  const known = [...CHANNELS.keys()].slice(0, 9).join(', ');
  throw new WrongFile({ file: sheet.file }, found, `Name the columns, such as time (s), pressure (psi), rate (bbl/min), concentration (ppa). Known are ${known} and the other channels of a pumped job; the files of events, states and labels as they are written`);
}

/** Reads times that may not go back. */
function clockOf(sheet: Sheet, name: string): (cells: string[], line: number) => number {
  const at = sheet.heads.findIndex((h) => h.name === name);
  const head = sheet.heads[at];
  const where: Where = { file: sheet.file, column: name };
  if (!head) throw new WrongFile({ file: sheet.file }, `there is no column ${name}`, `Give the time of every row in a column ${name} (s).`);
  const unit = unitFor(head, 'time', { file: sheet.file });
  let last = Number.NEGATIVE_INFINITY;
  return (cells, line) => {
    const text = cells[at] ?? '';
    const time = numberOf(text, unit, () => ({ ...where, line }));
    if (Number.isNaN(time)) throw new WrongFile({ ...where, line }, 'there is no time', 'Give every row its time, or leave the row out.');
    if (time < last) throw new WrongFile({ ...where, line }, `${quoted(text)} ${unit.symbol} is before the row above`, 'Put the rows in the order of their times; where a recorder began anew, load each part by itself.');
    last = time;
    return time;
  };
}

function channelsOf(sheet: Sheet, found: Found): Taker {
  const clock = clockOf(sheet, 'time');
  const columns: { at: number; name: string; unit: Unit; data: Column }[] = [];
  sheet.heads.forEach((head, at) => {
    const name = nameOf(head);
    const kind = CHANNELS.get(name);
    if (name === 'time') return;
    if (!kind) found.unused.push(head.name);
    else if (columns.some((c) => c.name === name)) throw new WrongFile({ file: sheet.file, column: head.name }, `two columns are ${name}`, 'Leave one of the two.');
    else columns.push({ at, name, unit: unitFor(head, kind, { file: sheet.file }), data: new Column() });
  });
  return {
    row(cells, line) {
      found.time.push(clock(cells, line));
      for (const c of columns) c.data.push(numberOf(cells[c.at] ?? '', c.unit, () => ({ file: sheet.file, line, column: c.name })));
    },
    done() {
      for (const c of columns) found.channel.set(c.name, c.data.take());
    },
  };
}

/** The cell of a column by its name. */
const cellOf = (sheet: Sheet, name: string) => {
  const at = sheet.heads.findIndex((h) => h.name === name);
  return (cells: string[]) => (cells[at] ?? '').trim();
};

const NONE: Unit = { symbol: '', factor: 1, offset: 0, decimals: 0 };

function stageOf(text: string, where: Where): number {
  const stage = numberOf(text, NONE, () => where);
  if (Number.isNaN(stage) || (Number.isInteger(stage) && stage >= 0)) return stage || 0;
  throw new WrongFile(where, `${quoted(text)} is not a stage`, 'Give a whole number, 1 at the toe.');
}

function eventsOf(sheet: Sheet, found: Found): Taker {
  const clock = clockOf(sheet, 'time');
  const [event, stage, what] = ['event', 'stage', 'what'].map((n) => cellOf(sheet, n)) as [(c: string[]) => string, (c: string[]) => string, (c: string[]) => string];
  return {
    row(cells, line) {
      const word = event(cells);
      const where = { file: sheet.file, line, column: 'stage' };
      found.events.push({ time: clock(cells, line), kind: EVENTS.get(word) ?? word.replaceAll(' ', '-'), stage: stageOf(stage(cells), where), text: what(cells) });
    },
  };
}

function labelsOf(sheet: Sheet, found: Found): Taker {
  const clock = clockOf(sheet, 'from');
  const until = sheet.heads.find((h) => h.name === 'until');
  const unit = unitFor(until ?? { name: 'until', unit: '' }, 'time', { file: sheet.file });
  const of = (name: string) => cellOf(sheet, name);
  const [end, fault, stage, what] = [of('until'), of('fault'), of('stage'), of('what')];
  return {
    row(cells, line) {
      const to = numberOf(end(cells), unit, () => ({ file: sheet.file, line, column: 'until' }));
      const number = stageOf(stage(cells), { file: sheet.file, line, column: 'stage' });
      found.labels.push({ kind: fault(cells), stage: number, from: clock(cells, line), until: Number.isNaN(to) ? null : to, text: what(cells) });
    },
  };
}

function sleeveRow(found: Found, stage: number, time: number, text: string, where: Where) {
  const state = STATES.find((s) => s === text);
  if (!state) throw new WrongFile(where, `${quoted(text)} is no state of a sleeve`, `Write one of: ${STATES.join(', ')}.`);
  const trace = found.sleeves.get(stage) ?? { stage, states: [] };
  if (trace.states.at(-1)?.[1] !== state) trace.states.push([time, state]);
  found.sleeves.set(stage, trace);
}

function ballRow(found: Found, stage: number, time: number, text: string, depth: number) {
  const places = found.balls.get(stage) ?? [];
  const last = places.at(-1);
  const place = text === 'broken' ? 'broken' : text === '' ? 'surface-lines' : 'travelling';
  if (!last && place === 'surface-lines') return;
  const at = Number.isNaN(depth) ? (last?.[2] ?? 0) : depth;
  if (last?.[1] !== place || last[2] !== at) places.push([time, place, at]);
  found.balls.set(stage, places);
}

/** A column of states: of a ball where it has a unit of depth, else of a sleeve. */
interface StateColumn {
  at: number;
  name: string;
  stage: number;
  unit: Unit | null;
}

function statesOf(sheet: Sheet, found: Found): Taker {
  const clock = clockOf(sheet, 'time');
  const columns = sheet.heads.flatMap((head, at): StateColumn[] => {
    const ball = /^ball_(\d+)_depth$/.exec(head.name)?.[1];
    const sleeve = head.name === 'toe_path' ? '0' : /^sleeve_(\d+)$/.exec(head.name)?.[1];
    if (ball !== undefined) return [{ at, name: head.name, stage: Number(ball), unit: unitFor(head, 'measured depth', { file: sheet.file }) }];
    if (sleeve !== undefined) return [{ at, name: head.name, stage: Number(sleeve), unit: null }];
    return [];
  });
  return {
    row(cells, line) {
      const time = clock(cells, line);
      for (const c of columns) {
        const text = (cells[c.at] ?? '').trim();
        const where = { file: sheet.file, line, column: c.name };
        if (!c.unit) sleeveRow(found, c.stage, time, text, where);
        else ballRow(found, c.stage, time, text, text === 'broken' ? Number.NaN : numberOf(text, c.unit, () => where));
      }
    },
  };
}

const TAKERS = { channels: channelsOf, events: eventsOf, states: statesOf, labels: labelsOf };

/** Balls on their way by the channels alone: where each ended is not known, so it is not drawn after. */
function ballsOnTheirWay(found: Found) {
  const ball = found.channel.get('ball');
  const depth = found.channel.get('ball_depth');
  if (!ball || !depth || found.files.states) return;
  let last = 0;
  found.time.forEach((time, i) => {
    const now = ball[i] ?? 0;
    if (now === last) return;
    const add = (stage: number, place: string, at: number) => found.balls.set(stage, [...(found.balls.get(stage) ?? []), [time, place, at]]);
    if (last > 0) add(last, 'surface-lines', 0);
    if (now > 0) add(now, 'travelling', depth[i] ?? 0);
    last = now;
  });
}

/** Length and pressure of every fracture when its stage was left, as the channels tell them. */
function fractures(found: Found): StageRun[] {
  const [stage, length, net] = ['open_stage', 'fracture_length', 'net_pressure'].map((n) => found.channel.get(n));
  const out = new Map<number, StageRun>();
  if (!stage || !length) return [];
  stage.forEach((s, i) => {
    if (s > 0 && (length[i] ?? 0) > 0) out.set(s, { stage: s, rock: { length: length[i] ?? 0, net_pressure: net?.[i] ?? Number.NaN } });
  });
  return [...out.values()];
}

/** What the files leave out of the picture. */
function missing(found: Found): string[] {
  const no = (name: string) => !found.channel.has(name);
  const out = ['treating_pressure', 'slurry_rate', 'concentration', 'concentration_below'].filter(no).map((n) => TITLES.get(n) ?? n);
  if (no('job_slurry') || no('concentration')) out.push('proppant in the string');
  if (no('open_stage')) out.push('the stage that takes fluid');
  if (no('open_stage') || no('fracture_length')) out.push('fractures');
  if (!found.files.states) out.push('which sleeves are open: all are drawn as they were run');
  if (found.balls.size === 0) out.push('balls in the string');
  else if (!found.files.states) out.push('balls once they have stopped');
  if (!found.files.events) out.push('events, and the jumps to them');
  return out;
}

function assemble(found: Found, scene: Scene): Run {
  ballsOnTheirWay(found);
  const files = (['channels', 'events', 'states', 'labels'] as const).flatMap((k) => found.files[k] ?? []);
  const size = new Map(scene.stages.map((s) => [s.stage, s.ball]));
  const balls: BallTrace[] = [];
  for (const [stage, places] of found.balls) {
    const diameter = size.get(stage);
    if (diameter) balls.push({ stage, diameter, places });
  }
  return {
    count: found.time.length,
    time: Float64Array.from(found.time),
    channel: found.channel,
    events: found.events,
    labels: found.labels,
    sleeves: [...found.sleeves.values()],
    balls,
    stages: fractures(found),
    finished: true,
    findings: [],
    loaded: { files, missing: missing(found), unused: found.unused, input: found.input },
  };
}

/** Reads a run from its files; tells the share that is done. */
export async function loadRun(files: File[], scene: Scene, progress: (share: number) => void): Promise<Run> {
  const found: Found = {
    files: {}, time: [], channel: new Map(), unused: [], events: [], labels: [], sleeves: new Map(), balls: new Map(), input: null,
  };
  const all = files.reduce((sum, f) => sum + f.size, 0) || 1;
  let before = 0;
  for (const file of files) {
    let taker: Taker | null = null;
    const begin = (sheet: Sheet) => {
      const kind = kindOfSheet(sheet);
      const other = found.files[kind];
      if (other !== undefined) throw new WrongFile({ file: file.name }, `it holds ${kind}, as ${other} does`, 'Load one file of each sort.');
      found.files[kind] = file.name;
      found.input ??= sheet.comments.map((c) => /\binput ([0-9a-f]{16})/.exec(c)?.[1]).find((h) => h !== undefined) ?? null;
      taker = TAKERS[kind](sheet, found);
      return taker;
    };
    await readSheet(file, begin, (share) => progress((before + share * file.size) / all));
    (taker as Taker | null)?.done?.();
    before += file.size;
  }
  if (!found.files.channels) {
    const names = files.map((f) => f.name).join(', ');
    throw new WrongFile({ file: names }, 'there are no channels among the files', 'Choose the file of channels with the others: time, pressure, rate, concentration.');
  }
  return assemble(found, scene);
}
