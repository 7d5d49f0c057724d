/** The string laid straight: what stands in it by measured depth, its seats, and its balls. */

import { volumeAt } from './path';
import { ballsAt, loadBehind, sampleAt, sleeveAt, valueAt, type Run } from './run';
import type { Scene } from './types';

export interface StripColours {
  fluid: string;
  proppant: string;
  steel: string;
  text: string;
  ball: string;
  open: string;
}

interface Board {
  pen: CanvasRenderingContext2D;
  scene: Scene;
  run: Run;
  time: number;
  width: number;
  colours: StripColours;
}

/** Top and height of the band of fluid, px. */
const BAND = [26, 30] as const;
/** Room at both ends, px. */
const EDGE = 12;

const x = (b: Board, md: number) => EDGE + (md / b.scene.toe) * (b.width - 2 * EDGE);

/** Clean fluid, and over it proppant, the denser the darker: what stands at a depth went past the meter a volume ago. */
function fluid(b: Board) {
  const { pen, run } = b;
  pen.fillStyle = b.colours.fluid;
  pen.fillRect(EDGE, BAND[0], b.width - 2 * EDGE, BAND[1]);
  const sample = sampleAt(run, b.time);
  pen.fillStyle = b.colours.proppant;
  for (let px = EDGE; px < b.width - EDGE; px += 2) {
    const md = ((px + 1 - EDGE) / (b.width - 2 * EDGE)) * b.scene.toe;
    const load = loadBehind(run, sample, volumeAt(b.scene, md));
    if (!(load >= 1)) continue;
    // The height shows the concentration as well, for eyes that do not tell the shades apart.
    const tall = BAND[1] * Math.min(1, 0.2 + load / 600);
    pen.globalAlpha = Math.min(0.95, 0.45 + load / 700);
    pen.fillRect(px, BAND[0] + BAND[1] - tall, 2, tall);
  }
  pen.globalAlpha = 1;
}

function seats(b: Board) {
  const { pen } = b;
  const taking = valueAt(b.run, 'open_stage', sampleAt(b.run, b.time));
  let last = Number.POSITIVE_INFINITY;
  for (const s of b.scene.stages) {
    const at = x(b, s.sleeve[1]);
    const state = sleeveAt(b.run, s.stage, b.time);
    pen.fillStyle = state === 'open' ? b.colours.open : b.colours.steel;
    pen.fillRect(at - 1, BAND[0] - 4, 2, BAND[1] + 8);
    if (s.stage === taking) {
      pen.beginPath();
      pen.moveTo(at, BAND[0] + BAND[1] + 14);
      pen.lineTo(at - 6, BAND[0] + BAND[1] + 5);
      pen.lineTo(at + 6, BAND[0] + BAND[1] + 5);
      pen.fill();
    }
    if (last - at < 18 && s.stage !== taking) continue;
    last = at;
    pen.fillStyle = b.colours.text;
    pen.fillText(String(s.stage), at, BAND[0] + BAND[1] + 26);
  }
}

function balls(b: Board) {
  const { pen } = b;
  const largest = Math.max(1e-6, ...b.scene.stages.map((s) => s.ball ?? 0));
  for (const ball of ballsAt(b.run, b.time)) {
    const at = x(b, ball.depth);
    const r = (0.5 * BAND[1] * ball.diameter) / largest;
    pen.fillStyle = b.colours.ball;
    pen.beginPath();
    pen.arc(at, BAND[0] + 0.5 * BAND[1], r, 0, 2 * Math.PI);
    pen.fill();
    if (!ball.moving) continue;
    pen.fillStyle = b.colours.text;
    pen.fillText(`ball ${ball.stage} ▸`, at, BAND[0] - 10);
  }
}

/** Draws the strip. */
export function drawStrip(b: Board) {
  b.pen.clearRect(0, 0, b.width, 96);
  b.pen.font = '12px system-ui, sans-serif';
  b.pen.textAlign = 'center';
  fluid(b);
  seats(b);
  balls(b);
}
