/** Lines of a chart as comma-separated values (RFC 4180), for spreadsheets. */

import { dsvFormat } from 'd3-dsv';
import { SPEEDS } from '../../table/index.ts';
import { type Decimal, formatDecimal } from '../document/decimal.ts';
import type { CsvRow } from './csv-rows.ts';

/** How spreadsheets of different countries write a table. */
export const CSV_DIALECTS = ['comma', 'semicolon', 'semicolon, decimal comma'] as const;
export type CsvDialect = (typeof CSV_DIALECTS)[number];

export const CSV_COLUMNS = ['pattern', 'start', ...SPEEDS, 'priority', 'remark'] as const;
export type CsvColumn = (typeof CSV_COLUMNS)[number];

/**
 * What a spreadsheet takes for a formula if a text begins with it, by OWASP's page on CSV injection,
 * the full-width forms included. An apostrophe before it guards; one that was there counts as text.
 */
const FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/;
const GUARDED = /^'+[=+\-@\t\r\n＝＋－＠]/;

/** So that spreadsheets read UTF-8 as what it is. */
const MARK = '\ufeff';

/** The whole table, with a row of names first. */
export function formatCsv(rows: readonly CsvRow[], dialect: CsvDialect): string {
  const { formatRow } = dsvFormat(dialect === 'comma' ? ',' : ';');
  const comma = dialect === 'semicolon, decimal comma';
  const decimal = (value: Decimal | null | undefined) => {
    const text = value === null || value === undefined ? '' : formatDecimal(value);
    return comma ? text.replace('.', ',') : text;
  };
  const lines = rows.map(({ pattern, start, numbers, priority, remark }) =>
    formatRow([
      ...[pattern, decimal(start), ...SPEEDS.map((speed) => decimal(numbers[speed]))],
      ...[priority ?? '', guarded(remark ?? '')],
    ]),
  );
  return `${MARK}${[formatRow([...CSV_COLUMNS]), ...lines].join('\r\n')}\r\n`;
}

function guarded(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

/** The text that was guarded; another one as it is, with an apostrophe of its own. */
export function unguarded(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell;
}
