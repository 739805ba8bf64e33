/**
 * Parses a table of lines from outside. Returns rows, or a sentence that names the row and the
 * column of a problem.
 */

import { dsvFormat } from 'd3-dsv';
import { divisions, type Rail, SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, parseWholeDecimal, toDecimal } from '../document/decimal.ts';
import { PRIORITIES, type Priority, placeKey } from '../document/document.ts';
import { LONGEST_REMARK, MOST_LINES } from '../document/limits.ts';
import { PATTERNS, type PatternId, patternOf } from '../document/patterns.ts';
import type { CsvRow } from './csv-rows.ts';
import { CSV_COLUMNS, type CsvColumn, unguarded } from './csv-writing.ts';

/** The most characters in a table. The largest possible chart has 1.2 million. */
const LONGEST_CSV = 2_000_000;
/**
 * The most rows in a table. Lines with a number, lines with a priority and lines with a remark may
 * all be different.
 */
const MOST_ROWS = 3 * MOST_LINES;

export type ParsedCsv =
  | { readonly ok: true; readonly rows: readonly CsvRow[] }
  | { readonly ok: false; readonly say: string };

/** A problem, in one sentence about the whole table, a row or a cell. */
interface Problem {
  readonly say: string;
}
/** Returns the text of a row's cell; empty if there is no such column. */
type Cells = (column: CsvColumn) => string;

export function parseCsv(text: string): ParsedCsv {
  if (text.length > LONGEST_CSV) return refuse('The table is larger than any chart.');
  const plain = text.replace(/^\ufeff/, '');
  const delimiter = delimiterOf(plain);
  const [header = [], ...body] = dsvFormat(delimiter).parseRows(plain);
  const columns = columnsIn(header);
  if ('say' in columns) return refuse(columns.say);
  const misquoted = misquotedRow(plain, delimiter);
  if (misquoted !== null) return refuse(`Row ${misquoted} has a quotation mark out of place.`);
  const rows = rowsIn(body, columns);
  return 'say' in rows ? refuse(rows.say) : { ok: true, rows };
}

function refuse(say: string): ParsedCsv {
  return { ok: false, say };
}

/** Returns the delimiter that is most frequent in the first row, which contains only names. */
function delimiterOf(text: string): string {
  const [header = ''] = text.split(/[\r\n]/, 1);
  const count = (delimiter: string) => header.split(delimiter).length;
  return [';', '\t'].reduce((best, one) => (count(one) > count(best) ? one : best), ',');
}

/**
 * Returns the first row, counted from 1, that has a quotation mark in the wrong place; null if
 * there is none. The CSV parser would lose the text next to such a mark.
 */
function misquotedRow(text: string, delimiter: string): number | null {
  const plain = `[^"\r\n${delimiter}]*`;
  const cell = new RegExp(`(?:"[^"]*(?:""[^"]*)*"|${plain})(${delimiter}|\r\n|\n|\r|$)`, 'y');
  let row = 1;
  while (cell.lastIndex < text.length) {
    const match = cell.exec(text);
    if (!match) return row;
    if (match[1] !== delimiter) row += 1;
  }
  return null;
}

/** Returns the column names in the header, or a problem. */
function columnsIn(header: readonly string[]): readonly CsvColumn[] | Problem {
  const names = header.map((name) => name.trim().toLowerCase());
  const unknown = names.findIndex((name) => !isColumn(name));
  if (unknown >= 0)
    return {
      say: `Row 1 has to name the columns, any of ${CSV_COLUMNS.join(', ')}; ${quoted(header[unknown] ?? '')} is none of them.`,
    };
  const twice = names.find((name, n) => names.indexOf(name) < n);
  if (twice !== undefined) return { say: `The column ${twice} is there twice.` };
  const missing = ['pattern', 'start'].find((name) => !names.includes(name));
  if (missing !== undefined) return { say: `There is no column ${missing}.` };
  return names.filter(isColumn);
}

function isColumn(name: string): name is CsvColumn {
  return CSV_COLUMNS.some((column) => column === name);
}

function rowsIn(
  body: readonly (readonly string[])[],
  columns: readonly CsvColumn[],
): readonly CsvRow[] | Problem {
  if (body.length > MOST_ROWS) return { say: 'The table has more rows than any chart has lines.' };
  const found: CsvRow[] = [];
  const places = new Map<string, number>();
  for (const [n, cells] of body.entries()) {
    // Row 1 is the header.
    const number = n + 2;
    if (cells.every((cell) => cell.trim() === '')) continue;
    if (cells.slice(columns.length).some((cell) => cell.trim() !== ''))
      return { say: `Row ${number} has more cells than there are columns.` };
    const row = rowIn((column) => cells[columns.indexOf(column)] ?? '');
    if ('say' in row) return { say: `Row ${number}, ${row.say}` };
    const before = places.get(placeKey(row));
    if (before !== undefined) return { say: `Row ${number} is of the same line as row ${before}.` };
    places.set(placeKey(row), number);
    if (hasContent(row)) found.push(row);
  }
  return found;
}

function hasContent({ numbers, priority, remark }: CsvRow): boolean {
  return Object.keys(numbers).length > 0 || priority !== null || remark !== null;
}

function rowIn(cells: Cells): CsvRow | Problem {
  const pattern = patternIn(cells('pattern'));
  if (!pattern) return { say: `column pattern: there is no pattern ${quoted(cells('pattern'))}.` };
  const { start: from, aim } = patternOf(pattern);
  const start = numberIn(cells, 'start', from.rail);
  if (isProblem(start)) return start;
  const numbers = numbersIn(cells, aim.rail);
  if ('say' in numbers) return numbers;
  const priority = priorityIn(cells('priority'));
  if (isProblem(priority)) return priority;
  const remark = unguarded(cells('remark')) || null;
  if (remark && remark.length > LONGEST_REMARK)
    return { say: `column remark: the remark is longer than ${LONGEST_REMARK} characters.` };
  // A row without a start is about the whole pattern, and a whole pattern has no number and no
  // remark.
  if (start === null && (Object.keys(numbers).length > 0 || remark !== null))
    return { say: 'column start: the line has no start.' };
  return { pattern, start, numbers, priority, remark };
}

function isProblem(value: unknown): value is Problem {
  return typeof value === 'object' && value !== null;
}

function patternIn(cell: string): PatternId | null {
  const wanted = cell.trim().toLowerCase();
  const found = PATTERNS.find(({ id, name }) => id === wanted || name.toLowerCase() === wanted);
  return found?.id ?? null;
}

function numbersIn(cells: Cells, rail: Rail): CsvRow['numbers'] | Problem {
  const numbers: Partial<Record<Speed, Decimal>> = {};
  for (const speed of SPEEDS) {
    const number = numberIn(cells, speed, rail);
    if (isProblem(number)) return number;
    if (number !== null) numbers[speed] = number;
  }
  return numbers;
}

function numberIn(cells: Cells, column: 'start' | Speed, rail: Rail): Decimal | null | Problem {
  const text = cells(column);
  const read = parseWholeDecimal(text);
  if (!read.ok && read.error === 'empty') return null;
  if (!read.ok) return { say: `column ${column}: ${quoted(text)} is not a number of diamonds.` };
  const most = divisions(rail);
  return read.value >= 0 && read.value <= toDecimal(most)
    ? read.value
    : { say: `column ${column}: ${quoted(text)} is beyond the rail, which ends at ${most}.` };
}

function priorityIn(cell: string): Priority | null | Problem {
  const wanted = cell.trim().toLowerCase();
  if (wanted === '') return null;
  const found = PRIORITIES.find((one) => one === wanted);
  return found ?? { say: `column priority: ${quoted(cell)} is none of ${PRIORITIES.join(', ')}.` };
}

/**
 * Returns the beginning of a cell in quotation marks, on one line and without characters that
 * change the direction of text.
 */
function quoted(cell: string): string {
  const text = cell.replaceAll(/[\s\p{Cc}\p{Cf}]+/gu, ' ').trim();
  return `“${text.length > 30 ? `${text.slice(0, 30)}…` : text}”`;
}
