/** Writes lines of a chart as comma-separated values (RFC 4180), for spreadsheets. */

import { dsvFormat } from 'd3-dsv';
import { SPEEDS } from '../../table/index.ts';
import { type Decimal, formatDecimal } from '../document/decimal.ts';
import type { CsvRow } from './csv-rows.ts';

/** The ways in which spreadsheets in different countries separate cells and decimals. */
export const CSV_DIALECTS = ['comma', 'semicolon', 'semicolon, decimal comma'] as const;
export type CsvDialect = (typeof CSV_DIALECTS)[number];

export const CSV_COLUMNS = ['pattern', 'start', ...SPEEDS, 'priority', 'remark'] as const;
export type CsvColumn = (typeof CSV_COLUMNS)[number];

/**
 * Text that begins with a character that starts a formula in spreadsheets, full-width forms
 * included (OWASP, CSV injection). An apostrophe in front guards such text. An apostrophe that the
 * text already has is part of the text.
 */
const FORMULA = /^'*[=+\-@\t\r\n＝＋－＠]/;
const GUARDED = /^'+[=+\-@\t\r\n＝＋－＠]/;

/** This makes spreadsheets read the file as UTF-8. */
const BYTE_ORDER_MARK = '\ufeff';

/** Returns the whole table as text, with a header. */
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
  return `${BYTE_ORDER_MARK}${[formatRow([...CSV_COLUMNS]), ...lines].join('\r\n')}\r\n`;
}

function guarded(text: string): string {
  return FORMULA.test(text) ? `'${text}` : text;
}

/** Removes the guarding apostrophe, if there is one. */
export function unguarded(cell: string): string {
  return GUARDED.test(cell) ? cell.slice(1) : cell;
}
