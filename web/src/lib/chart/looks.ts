/** How series tell themselves apart: by colour, and by hatch, dash or shape as well. */

export type Hatch = 'full' | 'pale' | 'rising' | 'falling' | 'dots' | 'level' | 'cross';
export type Shape = 'diamond' | 'ring' | 'bar' | 'cross' | 'down';

export interface Look {
  colour: string;
  hatch?: Hatch;
  dash?: string;
  shape?: Shape;
}

export const BLUE = 'var(--chart-blue)';
export const ORANGE = 'var(--chart-orange)';
export const GREEN = 'var(--chart-green)';
export const PURPLE = 'var(--chart-purple)';
export const GREY = 'var(--chart-grey)';
export const INK = 'var(--text)';
export const RED = 'var(--stop)';

/** A line of the key. */
export interface KeyLine {
  name: string;
  look: Look;
}

/** A value across a whole chart: a limit, a wait. */
export interface Across extends KeyLine {
  at: number;
}

/** The key without the lines that are named twice. */
export const once = (key: KeyLine[]): KeyLine[] => key.filter((k, i) => key.findIndex((o) => o.name === k.name) === i);
