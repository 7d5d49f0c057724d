/** Frames as the browser's own trace tells them. */

/** Shortest time between two frames of a screen of 60 a second, ms. */
const REFRESH = 1000 / 60;
/** A frame later than this after the one before has missed a turn of the screen, ms. */
const MISSED = 1.5 * REFRESH;

const sorted = (list) => [...list].sort((a, b) => a - b);
export const median = (list) => sorted(list)[Math.floor(list.length / 2)] ?? Number.NaN;

/** When each frame that was presented was, ms, and how many were dropped. */
function frames(events) {
  const begun = new Map();
  const shown = [];
  let dropped = 0;
  for (const e of events.filter((x) => x.name === 'PipelineReporter')) {
    const id = e.id2?.local ?? e.id;
    const key = `${e.pid} ${id}`;
    if (e.ph === 'b') begun.set(key, e.args?.chrome_frame_reporter ?? e.args?.frame_reporter);
    if (e.ph !== 'e') continue;
    const report = e.args?.chrome_frame_reporter ?? begun.get(key);
    const state = report?.state ?? '';
    if (state.startsWith('STATE_PRESENTED')) shown.push(e.ts / 1000);
    if (state === 'STATE_DROPPED' && report.affects_smoothness) dropped += 1;
  }
  return { shown: sorted(shown), dropped };
}

/** Processor time of the page's own thread, ms: scripts, style, layout and paint. */
function work(events, from, until) {
  const main = events.find((e) => e.name === 'thread_name' && e.args?.name === 'CrRendererMain');
  const on = (e) => e.pid === main?.pid && e.tid === main?.tid;
  const tasks = events.filter((e) => e.ph === 'X' && on(e) && /RunTask$/.test(e.name) && e.ts / 1000 >= from && e.ts / 1000 <= until);
  return tasks.reduce((sum, e) => sum + (e.tdur ?? e.dur) / 1000, 0);
}

/** What a trace tells of the frames in it. */
export function judged(trace) {
  const events = JSON.parse(trace.toString()).traceEvents;
  const { shown, dropped } = frames(events);
  const between = shown.slice(1).map((t, i) => t - shown[i]).filter((t) => t > 0.01);
  const over = (limit) => between.filter((t) => t > limit).length / between.length;
  const [from, until] = [shown[0], shown.at(-1)];
  return {
    frames: between.length + 1,
    seconds: (until - from) / 1000,
    rate: (1000 * between.length) / (until - from),
    median: median(between),
    over16: over(REFRESH),
    missed: over(MISSED),
    over33: over(2 * REFRESH),
    longest: Math.max(...between),
    dropped,
    work: work(events, from, until) / between.length,
  };
}
