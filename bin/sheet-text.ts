/**
 * Formats a sheet as text. JSON and CSV contain everything, unrounded; Markdown contains what a
 * player reads.
 */

import { type Decimal, formatDecimal, type Sheet, toDecimal } from '../src/charts/index.ts';
import { type MakeWindow, type Setting, SPEEDS } from '../src/table/index.ts';
import {
  type Cell,
  type Format,
  formatCsv,
  formatJson,
  formatMarkdown,
  type Grid,
} from './format.ts';
import { type LineRecord, recordOf } from './records.ts';

/**
 * Returns a sheet as text.
 * @param printStep the step to which the sheet's numbers are printed
 */
export function formatSheet(
  sheet: Sheet,
  setting: Setting,
  printStep: Decimal,
  format: Format,
): string {
  const records = sheet.lines.map((line) => recordOf(line, setting));
  if (format === 'json') return formatJson(records);
  return format === 'csv' ? formatCsv(flat(records)) : formatMarkdown(readable(records, printStep));
}

type Column = readonly [name: string, cell: (record: LineRecord) => Cell];

/** The columns of the CSV. A column's name is its path in the JSON. */
const COLUMNS: readonly Column[] = [
  ['start', (line) => line.start],
  ...SPEEDS.map((speed): Column => [speed, (line) => line[speed]]),
  ...SPEEDS.map((speed): Column => [`printed.${speed}`, (line) => line.printed[speed]]),
  ...SPEEDS.map((speed): Column => [`why.${speed}`, (line) => line.why[speed]]),
  ...SPEEDS.flatMap((speed): Column[] => [
    [`makeWindow.${speed}.from`, (line) => line.makeWindow[speed]?.from ?? null],
    [`makeWindow.${speed}.to`, (line) => line.makeWindow[speed]?.to ?? null],
  ]),
  ['entryAngleDeg', (line) => line.entryAngleDeg],
  ['touch', (line) => line.touch],
  ['drift.perTenth', (line) => line.drift.perTenth],
  ['drift.halfWay', (line) => line.drift.halfWay],
  ['verdict', (line) => line.verdict],
  ['reason', (line) => line.reason],
  ['best', (line) => line.best],
  ['anchor', (line) => line.anchor],
];

function flat(records: readonly LineRecord[]): Grid {
  return {
    head: COLUMNS.map(([name]) => name),
    rows: records.map((record) => COLUMNS.map(([, cell]) => cell(record))),
  };
}

function readable(records: readonly LineRecord[], printStep: Decimal): Grid {
  const places = printStep % 1000 === 0 ? 1 : 2;
  return {
    head: [
      'start',
      ...SPEEDS,
      ...SPEEDS.map((speed) => `drops, ${speed}`),
      'entry',
      'verdict',
      'anchor',
    ],
    rows: records.map((line) => [
      formatDecimal(toDecimal(line.start)),
      ...SPEEDS.map((speed) => printed(line.printed[speed], places) ?? line.why[speed]),
      ...SPEEDS.map((speed) => windowText(line.makeWindow[speed])),
      line.entryAngleDeg === null ? null : `${Math.round(line.entryAngleDeg)}°`,
      line.verdict,
      line.anchor ? 'anchor' : '',
    ]),
  };
}

function printed(value: number | null, places: number): string | null {
  return value === null ? null : formatDecimal(toDecimal(value), places);
}

/** Returns a window as text with two decimals, because windows are accurate to 0.002 diamond. */
function windowText(window: MakeWindow | null): string | null {
  return window && `${window.from.toFixed(2)}–${window.to.toFixed(2)}`;
}
