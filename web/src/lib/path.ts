/** The path of the hole as a page lays it out: places and directions at a measured depth. */

import type { Pipe, Scene } from './types';

export interface Spot {
  /** Way along the horizontal and vertical depth, m. */
  x: number;
  y: number;
  /** Direction down the hole. */
  dx: number;
  dy: number;
}

/** Index of the last row whose first column is not above a value. */
export function rowBefore(rows: readonly (readonly number[])[], value: number): number {
  let low = 0;
  let high = rows.length - 1;
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((rows[middle]?.[0] ?? 0) <= value) low = middle;
    else high = middle - 1;
  }
  return low;
}

/** The place at a measured depth; depth is stretched against reach by a factor. */
export function spotAt(scene: Scene, md: number, stretch: number): Spot {
  const rows = scene.path;
  const i = Math.min(rowBefore(rows, md), rows.length - 2);
  const a = rows[i] ?? [0, 0, 0];
  const b = rows[i + 1] ?? a;
  const length = b[0] - a[0] || 1;
  const share = Math.min(1, Math.max(0, (md - a[0]) / length));
  const dx = b[2] - a[2];
  const dy = (b[1] - a[1]) * stretch;
  const norm = Math.hypot(dx, dy) || 1;
  return {
    x: a[2] + share * dx,
    y: (a[1] + share * (b[1] - a[1])) * stretch,
    dx: dx / norm,
    dy: dy / norm,
  };
}

/** The innermost pipe at a measured depth, which fluid and balls go through. */
export function boreAt(scene: Scene, md: number): Pipe | undefined {
  const there = scene.pipes.filter((p) => p.role !== 'casing' && p.top <= md && md <= p.bottom);
  return there.sort((a, b) => a.bore - b.bore)[0];
}

/** Volume in the string from the wellhead to a measured depth, m³: rows of depth and volume. */
export function volumes(scene: Scene): [number, number][] {
  const marks = new Set<number>([0, scene.toe]);
  for (const p of scene.pipes) for (const end of [p.top, p.bottom]) if (end < scene.toe) marks.add(end);
  const sorted = [...marks].sort((a, b) => a - b);
  const rows: [number, number][] = [[0, 0]];
  let sum = 0;
  for (let i = 1; i < sorted.length; i++) {
    const [top, bottom] = [sorted[i - 1] ?? 0, sorted[i] ?? 0];
    const bore = boreAt(scene, 0.5 * (top + bottom))?.bore ?? 0;
    sum += (Math.PI / 4) * bore * bore * (bottom - top);
    rows.push([bottom, sum]);
  }
  return rows;
}

/** Volume to a depth from those rows. */
export function volumeAt(rows: readonly [number, number][], md: number): number {
  const i = Math.min(rowBefore(rows, md), rows.length - 2);
  const a = rows[i] ?? [0, 0];
  const b = rows[i + 1] ?? a;
  const length = b[0] - a[0];
  return length > 0 ? a[1] + ((md - a[0]) / length) * (b[1] - a[1]) : a[1];
}
