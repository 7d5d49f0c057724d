/** Words and figures for people that more than one view says. */

import { numberText } from './format';
import type { DeviceKind, PressureStep } from './plan';
import type { Si, Units } from './types';
import { shown } from './units';

/** A number alone in the unit shown; a dash where there is none. */
export function bare(si: Si | null | undefined, kind: string, units: Units, digits?: number): string {
  const as = shown(kind, units);
  if (!si || !Number.isFinite(si.value)) return '–';
  const places = digits ?? as.digits;
  return numberText(si.value / as.per, places);
}

/** The same with its unit. */
export function fine(si: Si | null | undefined, kind: string, units: Units, digits: number): string {
  const number = bare(si, kind, units, digits);
  return number === '–' ? number : `${number} ${shown(kind, units).unit}`;
}

/** Decimals to which a ball and its seat are read. */
export const ballDigits = (units: Units) => (units === 'field' ? 4 : 3);

/** A span of time in the unit a person would say it in. */
export function span(time: Si | null | undefined): string {
  if (!time || !Number.isFinite(time.value)) return '–';
  const s = time.value;
  const of = (n: number, unit: string) => `${numberText(n, 1)} ${unit}`;
  if (Math.abs(s) < 60) return of(s, 's');
  if (Math.abs(s) < 7200) return of(s / 60, 'min');
  if (Math.abs(s) < 259200) return of(s / 3600, 'h');
  return of(s / 86400, 'd');
}

/** A figure of the engine as a number in the unit shown, for drawing. */
export const drawn = (si: Si, kind: string, units: Units): number => si.value / shown(kind, units).per;

/** What holds a rate ceiling. */
export const HELD_BY: Record<string, string> = { pressure: 'pressure', power: 'power', iron: 'iron', wanted: 'not held' };

/** What a device is called, in words. */
export const DEVICE: Record<DeviceKind, string> = {
  isolation: 'isolation tool',
  'casing-packer': 'casing packer',
  packer: 'packer',
  'pressure-sleeve': 'pressure sleeve',
};

const ACTION: Record<string, string> = {
  circulate: 'circulate',
  'land-ball': 'land the setting ball',
  'land-plug': 'displace, land the plug',
  'close-isolation': 'close the isolation tool',
  'start-casing-packer': 'start the casing packer',
  'set-casing-packer': 'set the casing packer',
  'start-packers': 'start the packers',
  'set-packers': 'set the packers',
  'test-string': 'test the string',
  bleed: 'bleed',
  'test-annulus': 'test the annulus',
  'rig-off': 'rig off',
  wait: 'wait',
  'open-pressure-sleeve': 'open the pressure sleeve',
};

/** A step of the pressure sheet in few words, with its number. */
export const stepName = (step: PressureStep) => `${step.step}. ${ACTION[step.action] ?? step.action}`;

const BOUND: Record<string, string> = {
  circulating: "share of the first device's lowest pressure",
  treating: 'limit of the treating pressure',
  'annulus-limit': 'limit of the annulus',
  end: 'pressure the step ends at',
};

/** What a step must not pass, in words. */
export function boundBy({ what, name }: PressureStep['bound_by']): string {
  if (what === 'next-device') return `${name ?? 'the next device'} may act, less the margin`;
  return name ?? BOUND[what] ?? what;
}

/** Whole numbers as runs: 1 to 5, 7, 9 to 12. */
export function runs(numbers: number[]): string {
  const out: [number, number][] = [];
  for (const n of numbers) {
    const last = out.at(-1);
    if (last && last[1] + 1 === n) last[1] = n;
    else out.push([n, n]);
  }
  return out.map(([a, b]) => (a === b ? `${a}` : `${a} to ${b}`)).join(', ');
}
