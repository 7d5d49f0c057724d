/** The parts of a plan that the views of pressures, swell, schedule and balls show; figures in SI as the engine gives them. */

import type { Band, Plan, Si } from './types';

export interface StepPlan {
  name: string;
  fluid: string;
  proppant: string | null;
  clean: Si;
  slurry: Si;
  from: Si;
  to: Si;
  mass: Si;
  time: Si;
  /** Slurry of the stage up to and with this step. */
  cumulative: Si;
  /** Surface pressure with the column full of this step's last mixture. */
  pressure: Si;
}

/** What a stage tells beyond its rates and the parts of its pressure. */
export interface StageMore {
  ports: Si;
  tvd: Si;
  volume_to_ports: Si;
  worst_mixture: string;
  worst_front: Si | null;
  clean_pressure: Si;
  bottomhole: Si;
  shut_in: Si;
  power: Si;
  seats_passed: number;
  steps: StepPlan[];
  clean: Si;
  slurry: Si;
  mass: Si;
  time: Si;
}

export interface JobTotals {
  fluids: { name: string; volume: Si }[];
  spacers_and_flush: Si;
  clean: Si;
  slurry: Si;
  proppants: { name: string; mass: Si; bulk: Si; trucks: number }[];
  mass: Si;
  pump_time: Si;
  tanks: number;
  power: Si;
  power_stage: number;
  power_on_location: Si;
  pumps_needed: number;
}

export interface StagesMore {
  totals: JobTotals;
}

export interface LadderMore {
  /** Every ball with the sizes that are accepted; the setting ball has no stage. */
  ledger: { stage: number | null; smallest: Si; largest: Si }[];
}

/** What a rung tells of the pressure across its ball. */
export interface RungMore {
  worst_differential: Si;
  rating_when_cooled: Si | null;
}

export interface Range {
  low: Si;
  nominal: Si;
  high: Si;
}

export interface Landing {
  rate: Si;
  /** Surface pressure just before landing. */
  before: Si;
  signature: { delay: Si; step: Si; round_trips: Si; rise: Si; spike: Si; lasts: Si; slope: Si };
  highest: Si;
  below_trip: Si;
  highest_spike: Si;
  impact: Si;
  impact_share: Si;
  opens_on_contact: boolean;
  visible: boolean;
  allowed: boolean;
}

export interface BallCard {
  stage: number;
  /** Stage during which it leaves; 0 before the first. */
  launched_during: number;
  ball: Si;
  ball_tolerance: Si;
  material: string;
  seat: Si;
  seat_tolerance: Si;
  seat_depth: Si;
  swept: Si;
  landing: Band;
  window_opens: Si;
  window_closes: Si;
  missing_at: Si;
  spacing: Si | null;
  spacing_sigmas: Si | null;
  spacer_ahead: Si;
  /** Reading of the meter of the stage being pumped. */
  launch_at: Si;
  rate_cut_at: Si;
  rate_before: Si;
  landing_rate: Si;
  transit: Si;
  slow_time: Si;
  chosen: Landing;
  options: Landing[];
  shear: Range;
}

export interface BallsPlan {
  cards: BallCard[];
  slow_time: Si;
  job_time: Si;
  spacers_lengthened: Si;
  over_displacement: Si;
}

export type DeviceKind = 'isolation' | 'casing-packer' | 'packer' | 'pressure-sleeve';

/** A device in its place with the pressures at the surface at which it acts. */
export interface Device {
  device: DeviceKind;
  stage: number | null;
  depth: Si;
  low: Si;
  nominal: Si;
  high: Si;
  full_set_at: Si | null;
}

export interface PressureStep {
  step: number;
  action: string;
  text: string;
  side: 'string' | 'annulus';
  device: string | null;
  depth: Si | null;
  acts_from: Si | null;
  low: Si;
  high: Si;
  bound_by: { what: string; name?: string };
  target: Si | null;
  differential: Si | null;
  hold: Si;
  volume_to_pump: Si | null;
  volume_held: Si | null;
  abort: string;
}

export interface PressureLimit {
  kind: string;
  name: string;
  depth: Si | null;
  rating: Si;
  factor: Si;
  ceiling: Si;
  used: Si;
  source: string;
}

export interface SwellPacker {
  stage: number;
  depth: Si;
  hole: Band;
  worst_hole: Si;
  wanted: Si;
  contact: Band | null;
  rating: Band | null;
  rating_in_worst_hole: Si | null;
  ready: Si;
  diameter_at_wait: Band;
  beyond_tests: Si;
}

export interface SwellChart {
  showing: 'best' | 'median' | 'worst';
  stage: number;
  hole: Band;
  wanted: Si;
  points: { time: Si; diameter: Band }[];
}

export interface SwellPlan {
  fluid: string;
  samples: number;
  seed: number;
  warm_up: Si;
  interference: Si;
  packers: SwellPacker[];
  ready: Band | null;
  earliest_frac: Si | null;
  expected_frac: Si | null;
  ready_at_wait: Si;
  last_packer: number | null;
  last_share: Si;
  planned_wait: Si;
  first_touch: Si | null;
  first_touch_packer: number | null;
  charts: SwellChart[];
  assumptions: string[];
}

export interface SettingPlan {
  system: 'fluid-activated' | 'hydraulic-set';
  devices: Device[];
  sheet: PressureStep[];
  least_room: Si | null;
  limits: PressureLimit[];
  circulating_limit: Si;
  highest: Si;
  string_volume: Si;
  landing_rate: Si | null;
  casing_packer_differential: Si;
  setting_seat: { rating: Si; utilisation: Si } | null;
  swell: SwellPlan | null;
}

export interface PlanMore {
  balls: BallsPlan | null;
  setting: SettingPlan | null;
  highest_treating_pressure: Si | null;
  limits: { treating: Si; trip: Si } | null;
  fractures: boolean;
}

const known = new WeakMap<Plan, Map<string, string>>();

/** The engine's own text of a figure of the plan, with its unit; nothing where the plan has no such figure. */
export function figureOf(plan: Plan | null, name: string): string | undefined {
  if (!plan) return undefined;
  let map = known.get(plan);
  if (!map) {
    map = new Map(plan.figures.map((f) => [f.name, f.value]));
    known.set(plan, map);
  }
  return map.get(name);
}
