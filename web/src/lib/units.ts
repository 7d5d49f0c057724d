/** Figures for people: SI numbers in the units that are shown. Units and factors are the engine's; here stands only
 * how many decimals a person reads. */

import { numberText } from './format';
import { kindOf, unitOf } from './kinds';
import type { Si, Units } from './types';

interface Shown {
  unit: string;
  per: number;
  digits: number;
}

/** Kind of the engine, decimals in field and in metric units, and a unit that goes before those of the kind. */
const KINDS: Record<string, [kind: string, field: number, metric: number, unit?: string]> = {
  depth: ['measured depth', 0, 1],
  length: ['length', 1, 2],
  diameter: ['diameter', 3, 1],
  pressure: ['gauge pressure', 0, 2],
  rate: ['rate', 1, 2],
  volume: ['volume', 1, 2],
  mass: ['mass', 0, 0],
  power: ['power', 0, 0],
  concentration: ['proppant concentration', 2, 0],
  minutes: ['time', 1, 1, 'min'],
  days: ['time', 1, 1, 'd'],
  share: ['ratio', 0, 0, '%'],
  number: ['ratio', 2, 2, ''],
};

/** How a kind of figure is shown. */
export function shown(kind: string, units: Units): Shown {
  const [name, field, metric, own] = KINDS[kind] ?? ['ratio', 2, 2, ''];
  const unit = unitOf(name, own ?? kindOf(name)?.[units] ?? '');
  return { unit: (unit?.symbol ?? '').replaceAll('m3', 'm³'), per: unit?.factor ?? 1, digits: units === 'metric' ? metric : field };
}

/** A figure with its unit. */
export function figure(si: number, kind: string, units: Units): string {
  const { unit, per, digits } = shown(kind, units);
  if (!Number.isFinite(si)) return '–';
  return `${numberText(si / per, digits)} ${unit}`;
}

/** A figure of the engine with its unit; a dash where there is none. */
export const told = (si: Si | null | undefined, kind: string, units: Units): string =>
  si ? figure(si.value, kind, units) : '–';

/** A quantity as it is written into a job file, with all its digits. */
export function typed(si: number, kind: string, units: Units): string {
  const { unit, per } = shown(kind, units);
  return `${Number((si / per).toPrecision(9))} ${unit.replace('³', '3')}`;
}

/** A time since the start as hours, minutes and seconds. */
export function clock(seconds: number): string {
  const whole = Math.max(0, Math.floor(seconds));
  const part = (n: number) => String(n).padStart(2, '0');
  return `${Math.floor(whole / 3600)}:${part(Math.floor(whole / 60) % 60)}:${part(whole % 60)}`;
}
