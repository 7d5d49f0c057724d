/** Figures for people: SI numbers in the units of the job. */

import type { Si, Units } from './types';

interface Shown {
  unit: string;
  per: number;
  digits: number;
}

const FT = 0.3048;
const INCH = 0.0254;
const PSI = 6894.757293168361;
const BBL = 0.158987294928;

const TABLE: Record<string, Record<Units, Shown>> = {
  depth: { field: { unit: 'ft', per: FT, digits: 0 }, metric: { unit: 'm', per: 1, digits: 1 } },
  length: { field: { unit: 'ft', per: FT, digits: 1 }, metric: { unit: 'm', per: 1, digits: 2 } },
  diameter: { field: { unit: 'in', per: INCH, digits: 3 }, metric: { unit: 'mm', per: 0.001, digits: 1 } },
  pressure: { field: { unit: 'psi', per: PSI, digits: 0 }, metric: { unit: 'MPa', per: 1e6, digits: 2 } },
  rate: { field: { unit: 'bbl/min', per: BBL / 60, digits: 1 }, metric: { unit: 'm³/min', per: 1 / 60, digits: 2 } },
  volume: { field: { unit: 'bbl', per: BBL, digits: 1 }, metric: { unit: 'm³', per: 1, digits: 2 } },
  mass: { field: { unit: 'lb', per: 0.45359237, digits: 0 }, metric: { unit: 'kg', per: 1, digits: 0 } },
  power: { field: { unit: 'hp', per: 745.6998715822702, digits: 0 }, metric: { unit: 'kW', per: 1000, digits: 0 } },
  concentration: { field: { unit: 'ppa', per: 119.82642731689664, digits: 2 }, metric: { unit: 'kg/m³', per: 1, digits: 0 } },
  minutes: { field: { unit: 'min', per: 60, digits: 1 }, metric: { unit: 'min', per: 60, digits: 1 } },
  days: { field: { unit: 'd', per: 86400, digits: 1 }, metric: { unit: 'd', per: 86400, digits: 1 } },
  share: { field: { unit: '%', per: 0.01, digits: 0 }, metric: { unit: '%', per: 0.01, digits: 0 } },
  number: { field: { unit: '', per: 1, digits: 2 }, metric: { unit: '', per: 1, digits: 2 } },
};

/** How a kind of figure is shown. */
export const shown = (kind: string, units: Units): Shown =>
  TABLE[kind]?.[units] ?? { unit: '', per: 1, digits: 2 };

/** A figure with its unit. */
export function figure(si: number, kind: string, units: Units): string {
  const { unit, per, digits } = shown(kind, units);
  if (!Number.isFinite(si)) return '–';
  return `${(si / per).toLocaleString('en-US', { minimumFractionDigits: digits, maximumFractionDigits: digits })} ${unit}`;
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
