/** Tools fixed at a depth, as edits of the job file. */

import type { Edit } from './api';
import type { Plan } from './types';
import { typed } from './units';

/** How near a tool that was moved by hand must stand to where it was put, m. */
const NEAR = 3.048;

/** The edits that fix a tool at a depth: its pin if it has one, else a new one. */
export function moved(plan: Plan, tool: 'packer' | 'sleeve', stage: number, depth: number): Edit[] {
  const there = plan.pins.findIndex((p) => p.tool === tool && p.stage === stage);
  const pin = `pin[${(there < 0 ? plan.pins.length : there) + 1}]`;
  const at = { path: `${pin}.depth`, value: typed(Math.round(depth * 100) / 100, 'depth', plan.units) };
  if (there >= 0) return [at];
  return [
    { path: `${pin}.tool`, value: tool },
    { path: `${pin}.stage`, value: String(stage) },
    at,
    { path: `${pin}.within`, value: typed(NEAR, 'length', plan.units) },
    { path: `${pin}.reason`, value: 'moved by hand on the well' },
  ];
}

/** The edit that lets a tool stand where the layout likes it best. */
export function freed(plan: Plan, tool: 'packer' | 'sleeve', stage: number): Edit[] {
  const there = plan.pins.findIndex((p) => p.tool === tool && p.stage === stage);
  return there < 0 ? [] : [{ path: `pin[${there + 1}]`, value: null }];
}
