import type { LadderMore, PlanMore, RungMore, StageMore, StagesMore } from './plan';

/** What the server tells; lengths, depths and diameters of a scene are in metres. */

export type Severity = 'stop' | 'warn' | 'note';

export interface Finding {
  id: string;
  severity: Severity;
  message: string;
  next: string;
  place: { file?: string | null; line?: number | null; field?: string | null; stage?: number | null };
  value: string | null;
  limit: string | null;
}

export interface Pipe {
  name: string;
  role: 'casing' | 'treating' | 'liner';
  top: number;
  bottom: number;
  outer: number;
  bore: number;
}

export interface StageScene {
  stage: number;
  /** Ends of the packer, then of its element. */
  packer: [number, number, number, number];
  element: number;
  /** Diameter it would have, free, when the first ball is planned; none where pressure sets it. */
  set: number | null;
  packer_hole: [number, number, number];
  /** Upper end, ports, lower end. */
  sleeve: [number, number, number];
  sleeve_outer: number;
  sleeve_bore: number;
  seat: number | null;
  /** Length of the bore of the seat, and half angle of its cone from the axis, rad. */
  seat_length: number;
  cone: number;
  ball: number | null;
  clearance: number | null;
}

export interface Scene {
  well: string;
  invented: boolean;
  /** Measured depth, vertical depth, way along the horizontal, volume from the meter, m³. */
  path: [number, number, number, number][];
  /** Measured depth, smallest and largest diameter. */
  hole: [number, number, number][];
  pipes: Pipe[];
  stages: StageScene[];
  casing_packer: [number, number, number];
  toe: number;
}

export interface Figure {
  name: string;
  title: string;
  value: string;
}

export type Units = 'field' | 'metric';

/** A figure in SI with its unit beside. */
export interface Si {
  value: number;
  unit: string;
}

/** Ten, fifty and ninety in a hundred are below. */
export interface Band {
  p10: Si;
  p50: Si;
  p90: Si;
}

export interface Rung extends RungMore {
  stage: number;
  ball: Si;
  seat: Si;
  interference: Si;
  clearance: Si | null;
  rating: Si;
  expected_differential: Si;
  utilisation: Si;
  worst_utilisation: Si;
  seat_loss: Si;
}

export interface LadderPlan extends LadderMore {
  method: string;
  bound_by: string;
  stages_that_fit: number;
  setting_ball: { ball: Si; seat: Si; clearance: Si | null } | null;
  rungs: Rung[];
}

export interface StagePlan extends StageMore {
  stage: number;
  planned_rate: Si;
  wanted_rate: Si;
  rate_ceiling: Si;
  bound_by: string;
  pressure: Record<'fracture' | 'hydrostatic' | 'near_wellbore' | 'pipe' | 'ports' | 'seats' | 'surface', Si>;
}

export interface StagesPlan extends StagesMore {
  stages: StagePlan[];
  toe_rate_without_seats: Si | null;
  toe_seat_loss: Si;
}

export interface Plan extends PlanMore {
  planned: boolean;
  stopped: boolean;
  stops: number;
  units: Units;
  header: { well: string; job: string; revision: string; version: string; input_hash: string; seed: number; invented: boolean; note: string; datum: string; prepared_by: string } | null;
  findings: Finding[];
  assumptions: { field: string; value: string; basis: string }[];
  scene: Scene | null;
  ladder: LadderPlan | null;
  ladder_rows: (number | null)[];
  stages: StagesPlan | null;
  pins: { tool: 'packer' | 'sleeve'; stage: number; depth: Si; within: Si }[];
  figures: Figure[];
}

export interface FormField {
  key: string;
  doc: string;
  shape: 'quantity' | 'text' | 'whole' | 'bool' | 'choice' | 'list';
  units: string[];
  choices: { word: string; meaning: string }[];
  absent: string;
  required: boolean;
  value: string | null;
  line: number | null;
}

export interface FormTable {
  path: string;
  doc: string;
  present: boolean;
  in_list: boolean;
  required: boolean;
  fields: FormField[];
}

export interface Explained {
  id: string;
  severity: Severity;
  title: string;
  checks: string;
  why: string;
  next: string;
  example: string;
  references: string;
}

export interface FaultDoc {
  name: string;
  title: string;
  begins: string;
  after: Si | null;
  over: Si | null;
  size: string | null;
  usual: Si | null;
  balls: number[];
  needs_rock: boolean;
  shows: string;
  telling: string;
  response: string;
}
