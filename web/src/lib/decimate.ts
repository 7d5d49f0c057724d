/** Channels as they are drawn: where more samples than pixels are in sight, the least and the greatest of every
 * pixel column. */

/** Columns of numbers in step: times first. A gap is null. */
export type Table = (number | null)[][];

/** Index of the first time that is not before a moment. */
function firstAt(time: Float64Array, moment: number): number {
  let low = 0;
  let high = time.length;
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((time[middle] ?? 0) < moment) low = middle + 1;
    else high = middle;
  }
  return low;
}

/** Bounds of the samples in sight, with one more on either side so that lines reach the edges. */
function bounds(time: Float64Array, from: number, until: number): [number, number] {
  return [Math.max(0, firstAt(time, from) - 1), Math.min(time.length, firstAt(time, until) + 1)];
}

const orGap = (value: number | undefined) => (value === undefined || Number.isNaN(value) ? null : value);

/** The least and the greatest of a stretch, in the order they come. */
function ends(values: Float32Array, from: number, until: number): [number | null, number | null] {
  let low = -1;
  let high = -1;
  for (let i = from; i < until; i++) {
    const v = values[i] as number;
    if (Number.isNaN(v)) continue;
    if (low < 0 || v < (values[low] as number)) low = i;
    if (high < 0 || v > (values[high] as number)) high = i;
  }
  const [a, b] = low < high ? [low, high] : [high, low];
  return [orGap(values[a]), orGap(values[b])];
}

/** What is in sight of some channels: two points a pixel column at most. The columns stand on a grid of time,
 * so that lines do not shiver as the window moves. */
export function inWindow(time: Float64Array, channels: Float32Array[], window: [number, number], columns: number): Table {
  const [first, end] = bounds(time, ...window);
  if (end - first <= 4 * columns) {
    return [Array.from(time.subarray(first, end)), ...channels.map((c) => Array.from(c.subarray(first, end), orGap))];
  }
  const wide = (window[1] - window[0]) / columns;
  const out: Table = [[], ...channels.map(() => [])];
  for (let i = first; i < end; ) {
    const column = Math.floor((time[i] ?? 0) / wide);
    const next = Math.max(i + 1, Math.min(end, firstAt(time, (column + 1) * wide)));
    out[0]?.push((column + 0.25) * wide, (column + 0.75) * wide);
    channels.forEach((c, k) => out[k + 1]?.push(...ends(c, i, next)));
    i = next;
  }
  return out;
}
