/** What differs between two plans. */

import type { Plan } from './types';

export interface Change {
  name: string;
  title: string;
  was: string;
  is: string;
}

/** Headline figures that are shown differently, or that only one of the two has. */
export function changes(old: Plan, now: Plan): Change[] {
  const had = new Map(old.figures.map((f) => [f.name, f]));
  const out: Change[] = [];
  for (const f of now.figures) {
    const was = had.get(f.name);
    had.delete(f.name);
    if (was?.value !== f.value) out.push({ name: f.name, title: f.title, was: was?.value ?? '–', is: f.value });
  }
  for (const f of had.values()) out.push({ name: f.name, title: f.title, was: f.value, is: '–' });
  return out;
}

export interface Shift {
  name: string;
  was: number;
  is: number;
}

/** Packers and sleeves that stand elsewhere, by more than a centimetre. */
export function shifts(old: Plan, now: Plan): Shift[] {
  const out: Shift[] = [];
  for (const s of now.scene?.stages ?? []) {
    const before = old.scene?.stages.find((o) => o.stage === s.stage);
    if (!before) continue;
    const tools = [
      { name: `packer ${s.stage}`, was: before.packer[0], is: s.packer[0] },
      { name: `sleeve ${s.stage}`, was: before.sleeve[1], is: s.sleeve[1] },
    ];
    out.push(...tools.filter((t) => Math.abs(t.is - t.was) > 0.01));
  }
  return out;
}
