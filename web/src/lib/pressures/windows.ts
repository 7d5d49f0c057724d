/** Rows of the pressure pictures of the setting: where every device acts, and where every step must stay. */

import type { Row } from '../chart/Bands.svelte';
import { BLUE, GREEN, INK, ORANGE, RED, type Across } from '../chart/looks';
import type { Device, SettingPlan } from '../plan';
import { DEVICE, drawn, runs, stepName } from '../said';
import type { Si, Units } from '../types';
import { told } from '../units';

/** Devices of one kind as one, from the lowest to the highest. */
interface Alike {
  name: string;
  low: Si;
  high: Si;
  nominal: Si | null;
  full: Si | null;
}

const least = (all: Si[]) => all.reduce((a, b) => (b.value < a.value ? b : a));
const most = (all: Si[]) => all.reduce((a, b) => (b.value > a.value ? b : a));

/** Devices that act alike: the packers go together. */
export function alike(devices: Device[]): Alike[] {
  const kinds = [...new Set(devices.map((d) => d.device))];
  return kinds.map((kind) => {
    const all = devices.filter((d) => d.device === kind);
    const full = all.flatMap((d) => d.full_set_at ?? []);
    const stages = all.flatMap((d) => d.stage ?? []);
    const name = kind === 'packer' ? `packers ${runs(stages)}` : DEVICE[kind];
    const nominal = all.length === 1 ? (all[0]?.nominal ?? null) : null;
    return { name, low: least(all.map((d) => d.low)), high: most(all.map((d) => d.high)), nominal, full: full.length ? most(full) : null };
  });
}

/** One row a kind of device: the range it acts in, expected, and fully set. */
export function deviceRows(plan: SettingPlan, u: Units): Row[] {
  const n = (si: Si) => drawn(si, 'pressure', u);
  return alike(plan.devices).map((d) => {
    const marks = [];
    if (d.nominal) marks.push({ name: 'expected', at: n(d.nominal), look: { colour: INK, shape: 'bar' as const } });
    if (d.full) marks.push({ name: 'fully set', at: n(d.full), look: { colour: GREEN, shape: 'diamond' as const } });
    return {
      name: d.name,
      bars: [{ name: 'acts between', from: n(d.low), to: n(d.high), look: { colour: BLUE, hatch: 'rising' } }],
      marks,
      tell: `${d.name}: acts between ${told(d.low, 'pressure', u)} and ${told(d.high, 'pressure', u)}${d.full ? `, fully set at ${told(d.full, 'pressure', u)}` : ''}`,
    };
  });
}

/** One row a step that puts pressure on the string: needed to not above, and where to go. */
export function stepRows(plan: SettingPlan, u: Units): Row[] {
  const n = (si: Si) => drawn(si, 'pressure', u);
  return plan.sheet.filter((s) => s.side === 'string' && s.high.value > 0).map((s) => {
    const marks = s.target
      ? [{ name: 'go to', at: n(s.target), look: { colour: INK, shape: 'diamond' as const } }]
      : [{ name: 'no room', at: n(s.low), look: { colour: RED, shape: 'cross' as const } }];
    return {
      name: stepName(s),
      bars: [{ name: 'needs, to not above', from: n(s.low), to: n(s.high), look: { colour: ORANGE, hatch: 'falling' } }],
      marks,
      tell: `${stepName(s)}: needs ${told(s.low, 'pressure', u)}, go to ${told(s.target, 'pressure', u)}, not above ${told(s.high, 'pressure', u)}`,
    };
  });
}

/** Pressures across all rows: circulating, and the lowest ceiling of the string. */
export function acrossAll(plan: SettingPlan, u: Units): Across[] {
  const lines: Across[] = [
    { name: `circulating, at most ${told(plan.circulating_limit, 'pressure', u)}`, at: drawn(plan.circulating_limit, 'pressure', u), look: { colour: INK, dash: '2 3' } },
  ];
  const [lowest] = plan.limits;
  if (lowest) lines.push({ name: `lowest ceiling: ${lowest.name} ${told(lowest.ceiling, 'pressure', u)}`, at: drawn(lowest.ceiling, 'pressure', u), look: { colour: RED, dash: '10 4' } });
  return lines;
}
