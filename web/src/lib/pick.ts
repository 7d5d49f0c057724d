/** From a point of the picture back to the well: the depth under the pointer, and the tool. */

import type { View } from './draw';
import { spotAt } from './path';
import type { Scene } from './types';

export interface Tool {
  tool: 'packer' | 'sleeve';
  stage: number;
  /** Measured depth of its middle, m. */
  middle: number;
}

type Size = [number, number];

/** Where a measured depth is on the picture, px. */
export function onScreen(scene: Scene, view: View, size: Size, md: number): [number, number] {
  const s = spotAt(scene, md, view.stretch);
  return [size[0] / 2 + (s.x - view.x) * view.scale, size[1] / 2 + (s.y - view.y) * view.scale];
}

/** Measured depth of the point of the path that is nearest to a point of the picture, m. */
export function depthAt(scene: Scene, view: View, size: Size, at: [number, number]): number {
  const x = view.x + (at[0] - size[0] / 2) / view.scale;
  const y = view.y + (at[1] - size[1] / 2) / view.scale;
  let best = { far: Number.POSITIVE_INFINITY, md: 0 };
  for (let i = 1; i < scene.path.length; i++) {
    const a = scene.path[i - 1];
    const b = scene.path[i];
    if (!a || !b) continue;
    const [ax, ay] = [a[2], a[1] * view.stretch];
    const [dx, dy] = [b[2] - ax, b[1] * view.stretch - ay];
    const length = dx * dx + dy * dy;
    const share = length > 0 ? Math.min(1, Math.max(0, ((x - ax) * dx + (y - ay) * dy) / length)) : 0;
    const far = Math.hypot(ax + share * dx - x, ay + share * dy - y);
    if (far < best.far) best = { far, md: a[0] + share * (b[0] - a[0]) };
  }
  return best.md;
}

/** The packer or sleeve under a point of the picture, as near as a finger hits; none elsewhere. */
export function toolAt(scene: Scene, view: View, size: Size, at: [number, number], reach = 14): Tool | null {
  let best: { far: number; tool: Tool } | null = null;
  const wide = Math.max(...scene.stages.map((s) => s.sleeve_outer)) * 0.5 * view.wide * view.scale;
  for (const s of scene.stages) {
    const tools: Tool[] = [
      { tool: 'packer', stage: s.stage, middle: 0.5 * (s.packer[0] + s.packer[1]) },
      { tool: 'sleeve', stage: s.stage, middle: 0.5 * (s.sleeve[0] + s.sleeve[2]) },
    ];
    for (const tool of tools) {
      const long = tool.tool === 'packer' ? s.packer[1] - s.packer[0] : s.sleeve[2] - s.sleeve[0];
      const [x, y] = onScreen(scene, view, size, tool.middle);
      const far = Math.hypot(x - at[0], y - at[1]);
      if (far > reach + Math.max(wide, 0.5 * long * view.scale)) continue;
      if (!best || far < best.far) best = { far, tool };
    }
  }
  return best?.tool ?? null;
}
