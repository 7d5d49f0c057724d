/** Draws the well on a canvas: true scale unless diameters or depths are stretched, and then by the
 * factor shown beside it. */

import { rest } from './cutaway';
import type { Layers } from './layers';
import { boreAt, rowBefore, spotAt, volumeAt } from './path';
import { ballsAt, loadBehind, sampleAt, sleeveAt, valueAt, type Run } from './run';
import type { Scene, StageScene } from './types';

/** What part of the well is seen: the middle in metres, pixels in a metre, and the two factors. */
export interface View {
  x: number;
  y: number;
  scale: number;
  /** Depth against reach. */
  stretch: number;
  /** Diameters against lengths. */
  wide: number;
}

export interface Colours {
  rock: string;
  hole: string;
  steel: string;
  fluid: string;
  proppant: string;
  packer: string;
  sleeve: string;
  open: string;
  ball: string;
  fracture: string;
  text: string;
}

export interface Shown {
  run: Run | null;
  time: number;
  /** Stage that is pointed out. */
  chosen: number | null;
  /** Whether packers are drawn as run in the hole, not yet swollen or set. */
  asRun: boolean;
  /** A diameter in words. */
  size: (metres: number) => string;
}

export interface Board {
  pen: CanvasRenderingContext2D;
  scene: Scene;
  view: View;
  size: [number, number];
  colours: Colours;
}

type Point = [number, number];

/** Tools thinner than this have marks beside them, px. */
export const FAR = 5;

/** A point of the picture: at a measured depth, so far from the axis (m, to the left of downhill). */
function place(b: Board, md: number, off: number): Point {
  const s = spotAt(b.scene, md, b.view.stretch);
  const away = off * b.view.wide;
  const [w, h] = b.size;
  return [
    w / 2 + (s.x - s.dy * away - b.view.x) * b.view.scale,
    h / 2 + (s.y + s.dx * away - b.view.y) * b.view.scale,
  ];
}

/** Measured depths that are in sight, found by the box of each piece of the path. */
export function inSight(scene: Scene, view: View, size: [number, number]): [number, number] {
  const margin = 40 / view.scale;
  const half: Point = [size[0] / 2 / view.scale + margin, size[1] / 2 / view.scale + margin];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let i = 1; i < scene.path.length; i++) {
    const a = scene.path[i - 1];
    const c = scene.path[i];
    if (!a || !c) continue;
    const out =
      Math.max(a[2], c[2]) < view.x - half[0] ||
      Math.min(a[2], c[2]) > view.x + half[0] ||
      Math.max(a[1], c[1]) * view.stretch < view.y - half[1] ||
      Math.min(a[1], c[1]) * view.stretch > view.y + half[1];
    if (out) continue;
    low = Math.min(low, a[0]);
    high = Math.max(high, c[0]);
  }
  return [low, high];
}

/** A band between two distances from the axis on both sides, filled. */
function band(b: Board, ends: [number, number], inner: (md: number) => number, outer: (md: number) => number, fill: string) {
  const step = Math.max((ends[1] - ends[0]) / 400, 1.5 / b.view.scale);
  const mds: number[] = [];
  for (let md = ends[0]; md < ends[1]; md += step) mds.push(md);
  mds.push(ends[1]);
  b.pen.fillStyle = fill;
  if (mds.every((md) => inner(md) === 0)) {
    // One piece, so that no seam shows along the axis.
    b.pen.beginPath();
    for (const md of mds) b.pen.lineTo(...place(b, md, outer(md)));
    for (const md of mds.reverse()) b.pen.lineTo(...place(b, md, -outer(md)));
    b.pen.fill();
    return;
  }
  for (const side of [1, -1]) {
    b.pen.beginPath();
    for (const md of mds) b.pen.lineTo(...place(b, md, side * outer(md)));
    for (const md of mds.reverse()) b.pen.lineTo(...place(b, md, side * inner(md)));
    b.pen.fill();
    mds.reverse();
  }
}

const cut = (ends: [number, number], top: number, bottom: number): [number, number] | null => {
  const out: [number, number] = [Math.max(ends[0], top), Math.min(ends[1], bottom)];
  return out[0] < out[1] ? out : null;
};

/** Largest hole over a piece as wide as a pixel, so that no washout is lost from afar. */
function holeAt(b: Board): (md: number) => number {
  const rows = b.scene.hole;
  const reach = Math.min(40, Math.max(1, Math.round(1 / b.view.scale)));
  return (md) => {
    const i = rowBefore(rows, md);
    let most = 0;
    for (let k = i; k < Math.min(rows.length, i + reach); k++) most = Math.max(most, rows[k]?.[2] ?? 0);
    return 0.5 * most;
  };
}

function pipes(b: Board, ends: [number, number]) {
  for (const p of b.scene.pipes) {
    const seen = cut(ends, p.top, p.bottom);
    if (seen) band(b, seen, () => 0.5 * p.bore, () => 0.5 * p.outer, b.colours.steel);
  }
}

/** Diameter of an element in a hole: as run, or swollen or set, but never beyond the hole. */
export function elementAt(s: StageScene, asRun: boolean, hole: number): number {
  if (asRun) return Math.min(s.element, hole);
  return Math.max(s.element, Math.min(hole, s.set ?? hole));
}

function packer(b: Board, ends: [number, number], s: StageScene, shown: Shown) {
  const body = cut(ends, s.packer[0], s.packer[1]);
  const element = cut(ends, s.packer[2], s.packer[3]);
  const bore = (md: number) => 0.5 * (boreAt(b.scene, md)?.outer ?? 0);
  if (body) band(b, body, bore, () => 0.5 * s.sleeve_outer, b.colours.steel);
  if (!element) return;
  const hole = holeAt(b);
  band(b, element, bore, (md) => 0.5 * elementAt(s, shown.asRun, 2 * hole(md)), b.colours.packer);
}

function sleeve(b: Board, ends: [number, number], s: StageScene, state: string, shown: Shown) {
  const chosen = shown.chosen === s.stage;
  const seen = cut(ends, s.sleeve[0], s.sleeve[2]);
  const colour = state === 'open' ? b.colours.open : b.colours.sleeve;
  if (seen) band(b, seen, () => 0.5 * s.sleeve_bore, () => 0.5 * s.sleeve_outer, colour);
  if (s.seat !== null && b.view.scale * s.sleeve_bore * b.view.wide > 3) seat(b, s, s.seat, shown);
  if (chosen && b.view.scale * s.sleeve_outer * b.view.wide < 24) {
    const [x, y] = place(b, s.sleeve[1], 0);
    b.pen.strokeStyle = b.colours.text;
    b.pen.lineWidth = 1.5;
    b.pen.beginPath();
    b.pen.arc(x, y, 14, 0, 2 * Math.PI);
    b.pen.stroke();
  }
}

/** The seat: a cone down to its bore at the angle of the job file, and the bore behind it. From near by the
 * ball is drawn where it stops, with the overlap as a dimension. */
function seat(b: Board, s: StageScene, bore: number, shown: Shown) {
  const slope = Math.tan(s.cone);
  const cone = (0.5 * (s.sleeve_bore - bore)) / slope;
  const top = s.sleeve[1];
  const half = (md: number) => (md < top + cone ? 0.5 * s.sleeve_bore - (md - top) * slope : 0.5 * bore);
  const end = top + cone + s.seat_length;
  // The corners must be among the points that are drawn.
  band(b, [top, top + cone], half, () => 0.5 * s.sleeve_bore, b.colours.steel);
  band(b, [top + cone, end], () => 0.5 * bore, () => 0.5 * s.sleeve_bore, b.colours.steel);
  if (s.ball === null || b.view.scale * s.ball * b.view.wide < 40) return;
  const r = 0.5 * s.ball;
  const centre = top + rest(s, bore, s.ball).centre;
  const [x, y] = place(b, centre, 0);
  b.pen.strokeStyle = b.colours.ball;
  b.pen.lineWidth = 1.5;
  if (!shown.run) b.pen.setLineDash([6, 4]);
  b.pen.beginPath();
  b.pen.ellipse(x, y, r * b.view.scale, r * b.view.wide * b.view.scale, Math.atan2(spotAt(b.scene, centre, b.view.stretch).dy, spotAt(b.scene, centre, b.view.stretch).dx), 0, 2 * Math.PI);
  b.pen.stroke();
  b.pen.setLineDash([]);
  for (const [md, d, side] of [[centre, s.ball, -1], [end, bore, 1]] as const) {
    const [a, c] = [place(b, md, 0.5 * d), place(b, md, -0.5 * d)];
    b.pen.strokeStyle = b.colours.text;
    b.pen.lineWidth = 1;
    b.pen.beginPath();
    b.pen.moveTo(...a);
    b.pen.lineTo(...c);
    b.pen.stroke();
    b.pen.fillStyle = b.colours.text;
    b.pen.textAlign = side < 0 ? 'right' : 'left';
    b.pen.fillText(shown.size(d), 0.5 * (a[0] + c[0]) + side * 8, 0.5 * (a[1] + c[1]));
    b.pen.textAlign = 'left';
  }
}

/** Clean fluid in the string. */
function fluid(b: Board, ends: [number, number]) {
  const half = (md: number) => 0.5 * (boreAt(b.scene, md)?.bore ?? 0);
  band(b, cut(ends, 0, b.scene.toe) ?? ends, () => 0, half, b.colours.fluid);
}

/** A short piece of the bore: its corners, and the volume from the meter to its middle. */
interface Slice {
  corners: [Point, Point, Point, Point];
  volume: number;
}

function slices(b: Board, ends: [number, number]): Slice[] {
  const half = (md: number) => 0.5 * (boreAt(b.scene, md)?.bore ?? 0);
  const step = Math.max((ends[1] - ends[0]) / 300, 3 / b.view.scale);
  const out: Slice[] = [];
  for (let md = ends[0]; md < ends[1]; md += step) {
    const end = Math.min(md + step, ends[1]);
    const [from, to] = [half(md), half(end)];
    const corners: Slice['corners'] = [place(b, md, from), place(b, end, to), place(b, end, -to), place(b, md, -from)];
    out.push({ corners, volume: volumeAt(b.scene, md + 0.5 * step) });
  }
  return out;
}

/** Shades in which proppant is told apart. */
const SHADES = 64;

/** Proppant in the string: what stands at a depth went past the meter a volume ago. */
function proppant(b: Board, bore: Slice[], shown: Shown) {
  const { run } = shown;
  if (!run) return;
  const sample = sampleAt(run, shown.time);
  const shades = new Map<number, Slice[]>();
  for (const slice of bore) {
    const load = loadBehind(run, sample, slice.volume);
    if (!(load >= 1)) continue;
    const shade = Math.round(SHADES * Math.min(0.9, 0.25 + load / 700));
    const list = shades.get(shade);
    if (list) list.push(slice);
    else shades.set(shade, [slice]);
  }
  b.pen.fillStyle = b.colours.proppant;
  for (const [shade, list] of shades) {
    b.pen.globalAlpha = shade / SHADES;
    b.pen.beginPath();
    for (const { corners } of list) {
      b.pen.moveTo(...corners[0]);
      for (const corner of corners) b.pen.lineTo(...corner);
    }
    b.pen.fill();
  }
  b.pen.globalAlpha = 1;
}

/** A fracture as it is drawn: its stage, half its height on the picture, px, and whether it takes fluid. */
type Crack = [stage: number, reach: number, open: boolean];

/** Fractures with their modelled length to both sides, drawn upright on the picture: that which takes
 * fluid as long as it is now, those before as they were left. What reaches out of the picture is cut. */
function cracks(b: Board, ends: [number, number], shown: Shown): Crack[] {
  const { run } = shown;
  if (!run) return [];
  const sample = sampleAt(run, shown.time);
  const open = valueAt(run, 'open_stage', sample);
  const out: Crack[] = [];
  for (const s of b.scene.stages) {
    if (s.sleeve[1] < ends[0] || s.sleeve[1] > ends[1]) continue;
    const left = sleeveAt(run, s.stage, shown.time) === 'isolated';
    const kept = run.stages.find((r) => r.stage === s.stage)?.rock?.length ?? 0;
    const length = s.stage === open ? valueAt(run, 'fracture_length', sample) : left ? kept : 0;
    // To a half pixel, so that the picture is kept while nothing is seen to grow.
    if (length > 0) out.push([s.stage, Math.min(2 * b.size[1], Math.round(2 * length * b.view.scale) / 2), s.stage === open]);
  }
  return out;
}

function fractures(b: Board, list: Crack[]) {
  for (const [stage, reach, open] of list) {
    const s = b.scene.stages.find((o) => o.stage === stage);
    if (!s) continue;
    const [x, y] = place(b, s.sleeve[1], 0);
    b.pen.strokeStyle = b.colours.fracture;
    b.pen.lineWidth = open ? 3 : 1.5;
    b.pen.beginPath();
    b.pen.moveTo(x, y - reach);
    b.pen.lineTo(x, y + reach);
    b.pen.stroke();
  }
}

function balls(b: Board, ends: [number, number], shown: Shown) {
  if (!shown.run) return;
  for (const ball of ballsAt(shown.run, shown.time)) {
    if (ball.depth < ends[0] || ball.depth > ends[1]) continue;
    const [x, y] = place(b, ball.depth, 0);
    const true_size = 0.5 * ball.diameter * b.view.wide * b.view.scale;
    b.pen.fillStyle = b.colours.ball;
    b.pen.beginPath();
    b.pen.arc(x, y, Math.max(true_size, ball.moving ? 4 : 1.5), 0, 2 * Math.PI);
    b.pen.fill();
    if (ball.moving || true_size > 12) {
      b.pen.fillStyle = b.colours.text;
      b.pen.fillText(`ball ${ball.stage}`, x + Math.max(true_size, 4) + 4, y - 6);
    }
  }
}

function names(b: Board, ends: [number, number]) {
  b.pen.fillStyle = b.colours.text;
  let last: Point | null = null;
  for (const s of b.scene.stages) {
    if (s.sleeve[1] < ends[0] || s.sleeve[1] > ends[1]) continue;
    const at = place(b, s.sleeve[1], 0);
    if (last && Math.hypot(at[0] - last[0], at[1] - last[1]) < 26) continue;
    last = at;
    const wall = 0.5 * s.sleeve_outer * b.view.wide * b.view.scale;
    b.pen.fillText(String(s.stage), at[0] - 4, at[1] - Math.max(10, wall + 8));
  }
}

/** From afar, where tools are thinner than a line: a bar beside the hole for a packer, a diamond for a sleeve. */
function marks(b: Board, ends: [number, number]) {
  const thickest = Math.max(0, ...b.scene.stages.map((s) => s.sleeve_outer)) * b.view.wide * b.view.scale;
  if (thickest > FAR) return;
  const beside = 10 / b.view.scale / b.view.wide;
  for (const s of b.scene.stages) {
    const [packer, sleeve] = [0.5 * (s.packer[0] + s.packer[1]), s.sleeve[1]];
    if (sleeve < ends[0] || packer > ends[1]) continue;
    const [px, py] = place(b, packer, beside);
    b.pen.fillStyle = b.colours.packer;
    b.pen.fillRect(px - 2, py - 5, 4, 10);
    const [x, y] = place(b, sleeve, beside);
    b.pen.fillStyle = b.colours.sleeve;
    b.pen.beginPath();
    for (const [dx, dy] of [[0, -5], [4, 0], [0, 5], [-4, 0]] as const) b.pen.lineTo(x + dx, y + dy);
    b.pen.fill();
  }
}

/** Draws everything; what stands still is kept in layers from one frame to the next. */
export function draw(b: Board, shown: Shown, layers: Layers) {
  const { pen, scene, view, size, colours } = b;
  pen.font = '12px system-ui, sans-serif';
  const still = [scene, colours, ...size, view.x, view.y, view.scale, view.stretch, view.wide];
  const ends = layers.once('ends', still, () => inSight(scene, view, size));
  if (ends[0] >= ends[1]) {
    pen.fillStyle = colours.rock;
    pen.fillRect(0, 0, ...size);
    return;
  }
  const list = cracks(b, ends, shown);
  layers.put(pen, 'under', [...still, ...list.flat()], (under) => {
    under.fillStyle = colours.rock;
    under.fillRect(0, 0, ...size);
    fractures({ ...b, pen: under }, list);
    layers.put(under, 'hole', still, (alone) => {
      const on = { ...b, pen: alone };
      const hole = holeAt(on);
      band(on, ends, () => 0, (md) => Math.max(hole(md), 1 / view.scale / view.wide), colours.hole);
      fluid(on, ends);
    });
  });
  proppant(b, layers.once('slices', still, () => slices(b, ends)), shown);
  const { run } = shown;
  const states = scene.stages.map((s) => (run ? sleeveAt(run, s.stage, shown.time) : 'closed'));
  layers.put(pen, 'tools', [...still, shown.chosen, shown.asRun, shown.size, run === null, ...states], (alone) => {
    const on = { ...b, pen: alone };
    pipes(on, ends);
    scene.stages.forEach((s, i) => {
      packer(on, ends, s, shown);
      sleeve(on, ends, s, states[i] ?? 'closed', shown);
    });
  });
  layers.put(pen, 'marks', still, (alone) => marks({ ...b, pen: alone }, ends));
  balls(b, ends, shown);
  names(b, ends);
}

/** The view that holds the whole well. */
export function whole(scene: Scene, size: [number, number], stretch: number, wide: number): View {
  const xs = scene.path.map((p) => p[2]);
  const ys = scene.path.map((p) => p[1] * stretch);
  const [left, right] = [Math.min(...xs), Math.max(...xs)];
  const [top, bottom] = [Math.min(...ys), Math.max(...ys)];
  const scale = 0.88 * Math.min(size[0] / Math.max(1, right - left), size[1] / Math.max(1, bottom - top));
  return { x: 0.5 * (left + right), y: 0.5 * (top + bottom), scale, stretch, wide };
}
