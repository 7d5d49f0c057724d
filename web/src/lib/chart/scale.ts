/** Scales and ticks of the charts. */

export type Ends = [low: number, high: number];

/** Step of 1, 2 or 5 times a power of ten that gives at most so many parts. */
function step(span: number, most: number): number {
  const least = span / Math.max(1, most);
  const ten = 10 ** Math.floor(Math.log10(least));
  return [1, 2, 5, 10].map((n) => n * ten).find((s) => s >= least * (1 - 1e-9)) ?? 10 * ten;
}

/** Round numbers between two ends. */
export function ticks([low, high]: Ends, most: number): number[] {
  if (!(high > low)) return [low];
  const each = step(high - low, most);
  const first = Math.ceil(low / each - 1e-9);
  const last = Math.floor(high / each + 1e-9);
  return Array.from({ length: last - first + 1 }, (_, i) => (first + i) * each);
}

/** Ends that hold all values, widened to round numbers; from nothing where asked. */
export function over(values: number[], fromZero = true): Ends {
  const all = values.filter(Number.isFinite);
  if (fromZero) all.push(0);
  const [low, high] = [Math.min(...all), Math.max(...all)];
  if (!(high > low)) return [Number.isFinite(low) ? low : 0, (Number.isFinite(low) ? low : 0) + 1];
  const each = step(high - low, 8);
  return [Math.floor(low / each + 1e-9) * each, Math.ceil(high / each - 1e-9) * each];
}

/** From a value to its place. */
export function place([low, high]: Ends, [from, to]: Ends): (value: number) => number {
  return (value) => from + ((value - low) / (high - low || 1)) * (to - from);
}

/** A tick's text, with as many decimals as its step needs. */
export function tickText(value: number, all: number[]): string {
  const each = all.length > 1 ? Math.abs((all[1] ?? 0) - (all[0] ?? 0)) : 1;
  const digits = Math.max(0, Math.min(6, -Math.floor(Math.log10(each) + 1e-9)));
  return value.toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits });
}
