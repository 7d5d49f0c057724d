/** The parts of a treating pressure, in the order they are stacked. */

import type { Row } from '../chart/Bands.svelte';
import { BLUE, GREEN, GREY, INK, ORANGE, PURPLE, type Look } from '../chart/looks';
import { drawn } from '../said';
import type { StagePlan, Units } from '../types';
import { figure, told } from '../units';

type Pressure = StagePlan['pressure'];
interface Part {
  name: string;
  look: Look;
  of: (p: Pressure) => number;
}

/** What is stacked: the first is what the fracture asks less what the column gives. */
export const STACKED: Part[] = [
  { name: 'fracture less column', look: { colour: GREY, hatch: 'full' }, of: (p) => p.fracture.value - p.hydrostatic.value },
  { name: 'pipe', look: { colour: BLUE, hatch: 'rising' }, of: (p) => p.pipe.value },
  { name: 'seats', look: { colour: ORANGE, hatch: 'falling' }, of: (p) => p.seats.value },
  { name: 'ports', look: { colour: GREEN, hatch: 'dots' }, of: (p) => p.ports.value },
  { name: 'near the wellbore', look: { colour: PURPLE, hatch: 'level' }, of: (p) => p.near_wellbore.value },
];

/** One stage from the fracture up to the surface: every part begins where the one before ends. */
export function waterfall(stage: StagePlan, units: Units): Row[] {
  const p = stage.pressure;
  const steps: [string, number, Look][] = [
    ['fracture', p.fracture.value, { colour: GREY, hatch: 'full' }],
    ['column takes off', -p.hydrostatic.value, { colour: INK, hatch: 'pale' }],
    ...STACKED.slice(1).map(({ name, of, look }): [string, number, Look] => [name, of(p), look]),
  ];
  let sum = 0;
  const rows = steps.map(([name, value, look]): Row => {
    const from = sum;
    sum += value;
    const [a, b] = [from, sum].map((v) => drawn({ value: v, unit: 'Pa' }, 'pressure', units)) as [number, number];
    const text = figure(Math.abs(value), 'pressure', units);
    return { name: `${name} ${text}`, bars: [{ name, from: a, to: b, look }], marks: [], tell: `${name}: ${text}` };
  });
  const surface = told(p.surface, 'pressure', units);
  const last = { name: 'at the surface', from: 0, to: drawn(p.surface, 'pressure', units), look: { colour: BLUE, hatch: 'cross' } as Look };
  return [...rows, { name: `at the surface ${surface}`, bars: [last], marks: [], tell: `at the surface: ${surface}` }];
}
