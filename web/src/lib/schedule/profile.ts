/** What is drawn of a stage's schedule and of the ball that leaves in it. */

import { BLUE, GREEN, INK, ORANGE, PURPLE, RED, type Across, type Look } from '../chart/looks';
import type { BallCard } from '../plan';
import { drawn } from '../said';
import type { StagePlan, Units } from '../types';

const LOOKS: Look[] = [
  { colour: ORANGE, hatch: 'rising' },
  { colour: PURPLE, hatch: 'dots' },
  { colour: GREEN, hatch: 'falling' },
  { colour: BLUE, hatch: 'cross' },
];

interface Area {
  name: string;
  look: Look;
  points: [number, number, number][];
}

/** The steps of a stage that carry proppant as areas over the volume pumped; each proppant has one look. */
export function areas(stage: StagePlan, u: Units): Area[] {
  const names = [...new Set(stage.steps.flatMap((s) => s.proppant ?? []))];
  return stage.steps.flatMap((s, i): Area[] => {
    if (s.proppant === null) return [];
    const from = drawn(stage.steps[i - 1]?.cumulative ?? { value: 0, unit: 'm3' }, 'volume', u);
    const to = drawn(s.cumulative, 'volume', u);
    const look = LOOKS[names.indexOf(s.proppant) % LOOKS.length] ?? { colour: ORANGE, hatch: 'rising' };
    return [{ name: s.proppant, look, points: [[from, 0, drawn(s.from, 'concentration', u)], [to, 0, drawn(s.to, 'concentration', u)]] }];
  });
}

/** A volume since launch on the meter of the stage the ball leaves in. */
const after = (ball: BallCard, volume: number, u: Units) => drawn({ value: ball.launch_at.value + volume, unit: 'm3' }, 'volume', u);

/** Marks of the ball on the volume axis. */
export function marks(ball: BallCard, u: Units): Across[] {
  const n = ball.stage;
  return [
    { name: `ball ${n} leaves`, at: drawn(ball.launch_at, 'volume', u), look: { colour: INK, dash: '', shape: 'down' } },
    { name: 'rate is cut', at: after(ball, ball.rate_cut_at.value, u), look: { colour: INK, dash: '2 3' } },
    { name: `ball ${n} most likely lands`, at: after(ball, ball.landing.p50.value, u), look: { colour: BLUE, dash: '', shape: 'diamond' } },
    { name: 'counts as missing', at: after(ball, ball.missing_at.value, u), look: { colour: RED, dash: '10 4', shape: 'cross' } },
  ];
}

/** The stretch in which its landing is looked for. */
export const zones = (ball: BallCard, u: Units) => [
  { name: `landing window of ball ${ball.stage}`, look: { colour: BLUE, hatch: 'pale' as const }, from: after(ball, ball.window_opens.value, u), to: after(ball, ball.window_closes.value, u) },
];
