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
  const a = rows[i] ?? [0, 0, 0, 0];
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

/** Volume in the string from the meter to a measured depth, m³. */
export function volumeAt(scene: Scene, md: number): number {
  const i = Math.min(rowBefore(scene.path, md), scene.path.length - 2);
  const a = scene.path[i] ?? [0, 0, 0, 0];
  const b = scene.path[i + 1] ?? a;
  const length = b[0] - a[0];
  return length > 0 ? a[3] + ((md - a[0]) / length) * (b[3] - a[3]) : a[3];
}
