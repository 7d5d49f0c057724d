/** Kinds of quantity with their units, the channels of a run and the words of its events, as the engine has
 * them. */

import table from './units.generated.json';

export interface Unit {
  symbol: string;
  factor: number;
  offset: number;
  decimals: number;
}

export interface Kind {
  units: Unit[];
  field: string;
  metric: string;
}

const KINDS = table.kinds as Record<string, Kind>;

/** Kind of every channel of a run, by its name. */
export const CHANNELS: ReadonlyMap<string, string> = new Map(table.channels.map((c) => [c.name, c.kind]));

/** Title of every channel of a run, by its name. */
export const TITLES: ReadonlyMap<string, string> = new Map(table.channels.map((c) => [c.name, c.title]));

/** Name of an event by its words. */
export const EVENTS: ReadonlyMap<string, string> = new Map(Object.entries(table.events));

/** A kind by its name. */
export const kindOf = (name: string): Kind | undefined => KINDS[name];

/** The unit of a kind that has this symbol. */
export const unitOf = (kind: string, symbol: string): Unit | undefined =>
  KINDS[kind]?.units.find((u) => u.symbol === symbol);

/** A number in a unit as SI. */
export const toSi = (value: number, unit: Unit): number => value * unit.factor + unit.offset;
