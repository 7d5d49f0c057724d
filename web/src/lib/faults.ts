/** What is to go wrong in a run, as it is chosen on the page. */

import type { FaultDoc } from './types';

/** A fault that is drawn by lot, and told when it is asked for. */
export const SURPRISE = '?';
/** Most faults that can be chosen at once. */
export const MOST = 6;

/** A fault as it is chosen; times in minutes, and empty where the usual figure is meant. */
export interface Chosen {
  name: string;
  stage: number;
  after: number | null;
  over: number | null;
  size: number | null;
}

/** A fault of a run, with all that is known of it. */
export interface Acted {
  doc: FaultDoc;
  of: Chosen;
}

export const fresh = (stage = 2): Chosen => ({ name: '', stage, after: null, over: null, size: null });

const one = (n: number) => Math.floor(Math.random() * n);

/** What a job has that a fault may need: the stages that have a ball, and a description of the rock. */
export interface Has {
  balls: number[];
  fractures: boolean;
}

export const possible = (doc: FaultDoc, has: Has) => has.fractures || !doc.needs_rock;

/** A fault by lot, at one of the stages that have the balls it takes. */
function drawn(faults: FaultDoc[], has: Has): Acted[] {
  const fit = (doc: FaultDoc) => has.balls.filter((stage) => doc.balls.every((on) => has.balls.includes(stage + on)));
  const able = faults.filter((f) => possible(f, has) && fit(f).length > 0);
  const doc = able[one(able.length)];
  if (!doc) return [];
  const stages = fit(doc);
  return [{ doc, of: { ...fresh(stages[one(stages.length)]), name: doc.name } }];
}

/** The faults of a run: those chosen, and by lot what is to be a surprise. */
export function acted(chosen: Chosen[], faults: FaultDoc[], has: Has): Acted[] {
  return chosen.flatMap((of) => {
    if (of.name === SURPRISE) return drawn(faults, has);
    const doc = faults.find((f) => f.name === of.name);
    return doc ? [{ doc, of }] : [];
  });
}

/** A fault as a run is asked for it. */
export function asked({ doc, of }: Acted): string {
  const parts = [`${doc.name}@${of.stage}`];
  if (doc.after && of.after !== null) parts.push(`after=${of.after} min`);
  if (doc.over && of.over !== null) parts.push(`over=${of.over} min`);
  if (doc.usual && of.size !== null) parts.push(`size=${of.size}`);
  return parts.join(',');
}
