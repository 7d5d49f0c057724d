/** What the pictures of the swell show. */

import type { Row } from '../chart/Bands.svelte';
import { BLUE, GREEN, INK, RED, type Across } from '../chart/looks';
import type { SwellPacker, SwellPlan } from '../plan';
import { drawn, span } from '../said';
import type { Band, Si } from '../types';

const DAYS = 86400;
const CONTACT = { colour: GREEN, hatch: 'level' as const };
const RATING = { colour: BLUE, hatch: 'rising' as const };

const days = (si: Si) => si.value / DAYS;

function spread(name: string, band: Band | null, look: typeof CONTACT | typeof RATING) {
  if (!band) return { bars: [], marks: [] };
  const lane = name === 'rating' ? ('lower' as const) : ('upper' as const);
  return {
    bars: [{ name: `${name}, P10 to P90`, from: days(band.p10), to: days(band.p90), look, lane }],
    marks: [{ name: `${name}, P50`, at: days(band.p50), lane, look: { colour: INK, shape: name === 'rating' ? ('diamond' as const) : ('bar' as const) } }],
  };
}

/** One row a packer, stage 1 first: when it touches, and when it has its rating. */
export function packerRow(p: SwellPacker, first: boolean): Row {
  const [contact, rating] = [spread('contact', p.contact, CONTACT), spread('rating', p.rating, RATING)];
  const say = (b: Band | null) => (b ? `${span(b.p10)}, ${span(b.p50)}, ${span(b.p90)}` : 'never in one sample of ten or more');
  return {
    name: first ? `${p.stage}, toe` : `${p.stage}`,
    stage: p.stage,
    bars: [...contact.bars, ...rating.bars],
    marks: [...contact.marks, ...rating.marks],
    tell: `packer of stage ${p.stage}: contact ${say(p.contact)}; rating ${say(p.rating)}`,
  };
}

/** The planned wait, and the earliest first ball where there is one. */
export function waits(plan: SwellPlan): Across[] {
  const lines: Across[] = [{ name: `planned wait ${span(plan.planned_wait)}`, at: days(plan.planned_wait), look: { colour: RED, dash: '10 4' } }];
  if (plan.earliest_frac) lines.push({ name: `earliest first ball ${span(plan.earliest_frac)}`, at: days(plan.earliest_frac), look: { colour: INK, dash: '2 3' } });
  return lines;
}

/** A band of diameters in the unit shown. */
export const spreadOf = (band: Band, units: Parameters<typeof drawn>[2]): [number, number, number] => [
  drawn(band.p10, 'diameter', units),
  drawn(band.p50, 'diameter', units),
  drawn(band.p90, 'diameter', units),
];
