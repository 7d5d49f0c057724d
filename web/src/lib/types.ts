/** What the server tells; lengths, depths and diameters of a scene are in metres. */

export type Severity = 'stop' | 'warn' | 'note';

export interface Finding {
  id: string;
  severity: Severity;
  message: string;
  next: string;
  place: { file?: string; line?: number; field?: string; stage?: number };
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

export interface Plan {
  planned: boolean;
  stopped: boolean;
  units: Units;
  header: { well: string; job: string; revision: string; version: string; input_hash: string };
  findings: Finding[];
  assumptions: { field: string; value: string; basis: string }[];
  scene: Scene | null;
  figures: Figure[];
  stops: number;
}

export interface FaultDoc {
  name: string;
  title: string;
  begins: string;
  size: string;
  shows: string;
  telling: string;
  response: string;
}
