/** Where a ball rests in its seat, and which seat above is the tightest for it. */

import type { Scene, StageScene } from './types';

export interface Rest {
  /** Length of the cone, from where it begins, m. */
  cone: number;
  /** Middle of the ball from where the cone begins, m. */
  centre: number;
  /** Radius of the circle that touches, m. */
  contact: number;
}

/** The ball touches the cone where its circle of contact lies on it, else the edge of the bore. */
export function rest(stage: StageScene, seat: number, ball: number): Rest {
  const r = ball / 2;
  const slope = Math.tan(stage.cone);
  const cone = (stage.sleeve_bore - seat) / 2 / slope;
  const contact = r * Math.cos(stage.cone);
  if (contact > seat / 2) {
    return { cone, contact, centre: (stage.sleeve_bore / 2 - contact) / slope - r * Math.sin(stage.cone) };
  }
  return { cone, contact: seat / 2, centre: cone - Math.sqrt(Math.max(0, r * r - (seat * seat) / 4)) };
}

export interface Tightest {
  stage: StageScene;
  bore: number;
  cone: number;
}

/** The smallest seat that the ball of a stage must pass; none for the ball of the stage at the heel. */
export function tightest(scene: Scene, stage: StageScene): Tightest | null {
  let best: Tightest | null = null;
  for (const s of scene.stages) {
    if (s.stage <= stage.stage || s.seat === null) continue;
    if (!best || s.seat < best.bore) best = { stage: s, bore: s.seat, cone: (s.sleeve_bore - s.seat) / 2 / Math.tan(s.cone) };
  }
  return best;
}
