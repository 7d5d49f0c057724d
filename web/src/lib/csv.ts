/** Reads a table from a CSV file piece by piece, so that a long one does not stop the page. Says of a wrong
 * file where it is wrong and what to do. */

import Papa from 'papaparse';
import { kindOf, toSi, unitOf, type Unit } from './kinds';

/** Bytes that are read at once: some thousand rows. */
const PIECE = 512 * 1024;
/** Longest head of a file, comments and all, bytes; what has none by then is no table. */
const LONGEST_HEAD = 256 * 1024;
/** Most rows of a table. */
const MOST_ROWS = 2_000_000;
/** Longest text of a cell that is shown. */
const SHOWN = 40;
const NUMBER = /^[-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?$/;

/** Where something is wrong. */
export interface Where {
  file: string;
  line?: number;
  column?: string;
}

/** A file that cannot be used: where, what was found there, and what to do. */
export class WrongFile extends Error {
  constructor(
    readonly where: Where,
    readonly found: string,
    readonly next: string,
  ) {
    const line = where.line === undefined ? '' : `, line ${where.line}`;
    const column = where.column === undefined ? '' : `, column ${where.column}`;
    super(`${where.file}${line}${column}: ${found}. ${next}`);
  }
}

/** A column by its head: its name in lower case, and the symbol of its unit, empty where none is given. */
export interface Head {
  name: string;
  unit: string;
}

/** What takes the rows of a table as they come. */
export interface Taker {
  row(cells: string[], line: number): void;
  /** All rows are there. */
  done?(): void;
}

export interface Sheet {
  file: string;
  heads: Head[];
  /** Comment lines above the head. */
  comments: string[];
}

/** A text as it is shown in a message. */
export const quoted = (text: string) => `\`${text.length > SHOWN ? `${text.slice(0, SHOWN)}…` : text}\``;

/** Takes a head apart: `treating pressure (psi)`, or with brackets. */
export function headOf(text: string): Head {
  const parts = /^(.*?)\s*(?:[([]([^()[\]]*)[)\]])?$/.exec(text.trim());
  const name = (parts?.[1] ?? text).trim().toLowerCase().replace(/[\s-]+/g, '_');
  return { name, unit: (parts?.[2] ?? '').trim() };
}

/** The unit of a column of a kind; a column of pure numbers needs none. */
export function unitFor(head: Head, kind: string, where: Where): Unit {
  const unit = unitOf(kind, head.unit);
  if (unit) return unit;
  const known = kindOf(kind)?.units.map((u) => u.symbol).filter((s) => s !== '') ?? [];
  const found = head.unit === '' ? 'the head gives no unit' : `${quoted(head.unit)} is not a unit of ${kind}`;
  throw new WrongFile({ ...where, column: head.name }, found, `Write the unit in the head, as in ${head.name} (${known[1] ?? known[0]}); these fit: ${known.join(', ')}`);
}

/** A number of a cell in SI; not a number where the cell is empty. */
export function numberOf(cell: string, unit: Unit, where: () => Where): number {
  const text = cell.trim();
  if (text === '') return Number.NaN;
  const value = NUMBER.test(text) ? toSi(Number(text), unit) : Number.NaN;
  if (Number.isFinite(value)) return value;
  const next = /^[-+]?\d+,\d+$/.test(text) ? 'Write the number with a point.' : 'Write a number, or leave the cell empty.';
  throw new WrongFile(where(), `${quoted(text)} is not a number`, next);
}

/** Numbers of a column as they come. */
export class Column {
  private data = new Float32Array(1 << 14);
  private count = 0;

  push(value: number) {
    if (this.count === this.data.length) {
      const more = new Float32Array(2 * this.data.length);
      more.set(this.data);
      this.data = more;
    }
    this.data[this.count++] = value;
  }

  take = () => this.data.slice(0, this.count);
}

/** The text of a file in pieces that end with a whole row. */
async function* pieces(file: File): AsyncGenerator<{ text: string; done: number }> {
  const decoder = new TextDecoder('utf-8', { fatal: true });
  let rest = '';
  for (let at = 0; at < file.size; at += PIECE) {
    const last = at + PIECE >= file.size;
    try {
      rest += decoder.decode(await file.slice(at, at + PIECE).arrayBuffer(), { stream: !last });
    } catch {
      throw new WrongFile({ file: file.name }, 'it is not UTF-8 text', 'Save the table as CSV in UTF-8.');
    }
    const end = last ? rest.length : wholeRows(rest);
    yield { text: rest.slice(0, end), done: Math.min(1, (at + PIECE) / file.size) };
    rest = rest.slice(end);
    // The page draws and answers in between.
    await new Promise((turn) => setTimeout(turn));
  }
}

/** Length of the part that holds whole rows: up to a line end that no quote runs over. */
function wholeRows(text: string): number {
  let end = text.lastIndexOf('\n');
  let quotes = 0;
  for (let i = text.indexOf('"'); i >= 0 && i < end; i = text.indexOf('"', i + 1)) quotes++;
  while (end >= 0 && quotes % 2 === 1) {
    const before = text.lastIndexOf('\n', end - 1);
    for (let i = text.indexOf('"', before + 1); i >= 0 && i < end; i = text.indexOf('"', i + 1)) quotes--;
    end = before;
  }
  return end + 1;
}

interface Start {
  heads: Head[];
  comments: string[];
  delimiter: string;
  newline: '\n' | '\r\n';
  /** Length of all that stands above the first row, and the line the first row is on. */
  length: number;
  line: number;
}

/** The comments and the head; none where there is no whole line of a head yet. */
function startOf(text: string, whole: boolean): Start | null {
  const comments: string[] = [];
  let at = text.startsWith('\ufeff') ? 1 : 0;
  for (let line = 2; at < text.length; line++) {
    const end = text.indexOf('\n', at);
    if (end < 0 && !whole) return null;
    const stop = end < 0 ? text.length : end;
    const row = text.slice(at, stop).trimEnd();
    const newline = text[stop - 1] === '\r' ? '\r\n' : '\n';
    at = stop + 1;
    if (row.startsWith('#')) comments.push(row.slice(1).trim());
    else if (row.trim() !== '') {
      const often = (sign: string) => row.split(sign).length;
      const delimiter = [',', ';', '\t'].reduce((best, sign) => (often(sign) > often(best) ? sign : best));
      const cells = Papa.parse<string[]>(row, { delimiter }).data[0] ?? [];
      return { heads: cells.map(headOf), comments, delimiter, newline, length: at, line };
    }
  }
  return null;
}

function refuseTwice(heads: Head[], where: Where) {
  const twice = heads.find((h, i) => h.name !== '' && heads.findIndex((o) => o.name === h.name) !== i);
  if (twice) throw new WrongFile({ ...where, column: twice.name }, 'the column stands there twice', 'Leave one of the two.');
}

/** Gives whole rows to their taker; returns the line after them. */
function feed(text: string, start: Start, line: number, taker: Taker, file: string): number {
  const { delimiter, newline } = start;
  const parsed = Papa.parse<string[]>(text.replace(/\r?\n$/, ''), { delimiter, newline });
  const broken = parsed.errors.find((e) => e.type === 'Quotes');
  for (const [i, cells] of parsed.data.entries()) {
    if (broken?.row === i) throw new WrongFile({ file, line }, 'a quoted text does not end', 'Close the quote, or write two for one inside.');
    const empty = cells.length === 1 && (cells[0] ?? '').trim() === '';
    if (!empty && cells.length !== start.heads.length) {
      throw new WrongFile({ file, line }, `the row has ${cells.length} cells, the head ${start.heads.length}`, 'Give every row as many cells as the head; an empty one is allowed.');
    }
    if (!empty) taker.row(cells, line);
    line += 1;
    for (const cell of cells) if (cell.includes('\n')) line += cell.split('\n').length - 1;
  }
  return line;
}

/** Reads a file; `begin` sees the head and says what takes the rows. */
export async function readSheet(file: File, begin: (sheet: Sheet) => Taker, progress: (share: number) => void): Promise<void> {
  const where = { file: file.name };
  let start: Start | null = null;
  let taker: Taker | null = null;
  let text = '';
  let line = 0;
  let first = 0;
  for await (const piece of pieces(file)) {
    text += piece.text;
    if (!start) {
      start = startOf(text, piece.done >= 1);
      if (!start && text.length < LONGEST_HEAD) continue;
      if (!start) throw new WrongFile(where, 'no head was found', 'Give a table in CSV whose first row names its columns.');
      refuseTwice(start.heads, { ...where, line: start.line - 1 });
      taker = begin({ file: file.name, heads: start.heads, comments: start.comments });
      text = text.slice(start.length);
      line = first = start.line;
    }
    if (taker && text !== '') line = feed(text, start, line, taker, file.name);
    if (line - first > MOST_ROWS) throw new WrongFile({ ...where, line }, `there are more than ${MOST_ROWS} rows`, 'Load a part of the record, or every second row.');
    text = '';
    progress(piece.done);
  }
  if (!start) throw new WrongFile(where, 'the file is empty', 'Give a table in CSV whose first row names its columns.');
  if (line === first) throw new WrongFile(where, 'there is no row below the head', 'Give the rows of the record.');
}
