/** The form of a job file in groups, and which findings belong to which field. */

import type { Finding, FormTable } from './types';

export interface Group {
  name: string;
  tables: FormTable[];
}

/** The table that a path belongs to at the top of the file. */
export const top = (path: string) => path.split(/[.[]/, 1)[0] ?? path;

/** Tables by the table at the top of the file that they are in. */
export function groups(tables: FormTable[]): Group[] {
  const out: Group[] = [];
  for (const table of tables) {
    const name = top(table.path);
    const last = out.at(-1);
    if (last?.name === name) last.tables.push(table);
    else out.push({ name, tables: [table] });
  }
  return out;
}

/** Path of a list without the number of its item; nothing for a table that is in no list itself. */
export const listOf = (path: string) => (path.endsWith(']') ? path.slice(0, path.lastIndexOf('[')) : null);

/** A piece of a form: a table, or a list of plain tables that is shown as one grid. */
export type Piece = { kind: 'table'; table: FormTable } | { kind: 'grid'; path: string; rows: FormTable[] };

/** Lists whose items have no tables of their own are grids. */
export function pieces(tables: FormTable[]): Piece[] {
  const deep = new Set(tables.map((t) => t.path.match(/^(.*)\[\d+\]\./)?.[1]).filter((p) => p !== undefined));
  const out: Piece[] = [];
  for (const table of tables) {
    const list = listOf(table.path);
    const last = out.at(-1);
    if (list === null || deep.has(list)) out.push({ kind: 'table', table });
    else if (last?.kind === 'grid' && last.path === list) last.rows.push(table);
    else out.push({ kind: 'grid', path: list, rows: [table] });
  }
  return out;
}

/** Findings that a field causes: those that name it, or something in it. */
export function findingsAt(findings: Finding[], path: string): Finding[] {
  return findings.filter((f) => f.place.field === path || f.place.field?.startsWith(`${path}[`) || f.place.field?.startsWith(`${path}.`));
}
