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

/** The proppants of a stage as areas over the volume pumped: one area each, nothing between its steps. */
export function areas(stage: StagePlan, u: Units): Area[] {
  const names = [...new Set(stage.steps.flatMap((s) => s.proppant ?? []))];
  return names.map((name, n) => ({
    name,
    look: LOOKS[n % LOOKS.length] ?? { colour: ORANGE },
    points: stage.steps.flatMap((s, i): Area['points'] => {
      const from = i > 0 ? drawn(stage.steps[i - 1]?.cumulative ?? s.cumulative, 'volume', u) : 0;
      const to = drawn(s.cumulative, 'volume', u);
      const [a, b] = s.proppant === name ? [drawn(s.from, 'concentration', u), drawn(s.to, 'concentration', u)] : [0, 0];
      return [[from, 0, a], [to, 0, b]];
    }),
  }));
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
