/** A chart's lines as rows of a table, and rows put into a chart. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import type { Decimal } from '../document/decimal.ts';
import {
  type ChartState,
  inOrder,
  type MeasuredLine,
  type Priority,
  type PriorityEntry,
  type Remark,
} from '../document/document.ts';
import { MOST_LINES } from '../document/limits.ts';
import { PATTERNS, type PatternId } from '../document/patterns.ts';
import type { Chart } from '../numbers/chart.ts';

/** What a table says of a line, or of a whole pattern if `start` is null. */
export interface CsvRow {
  readonly pattern: PatternId;
  readonly start: Decimal | null;
  /** Through the sight. */
  readonly numbers: Readonly<Partial<Record<Speed, Decimal>>>;
  readonly priority: Priority | null;
  readonly remark: string | null;
}

/** What is measured or said of the lines of the chart's patterns. */
export function measuredRows(state: ChartState): readonly CsvRow[] {
  return rowsOf(state, state.measured.map(numbersOf));
}

/** All lines with their printed numbers. */
export function printedRows({ state, naming, lines }: Chart): readonly CsvRow[] {
  if (naming !== 'through') throw new Error(`numbers of naming ${naming} in a table`);
  const printed = lines.map(({ pattern, start, numbers: { soft, medium, firm } }) => ({
    ...{ pattern, start },
    numbers: { soft: soft.printed, medium: medium.printed, firm: firm.printed },
  }));
  return rowsOf(state, printed);
}

type Place = Pick<CsvRow, 'pattern' | 'start'>;
type Said = Place & Partial<CsvRow>;

function numbersOf({ pattern, start, ...numbers }: MeasuredLine) {
  return { pattern, start, numbers };
}

function rowsOf({ patterns, priorities, remarks }: ChartState, numbers: readonly Said[]) {
  const said: readonly Said[] = [
    ...numbers,
    ...priorities,
    ...remarks.map(({ text, ...place }) => ({ ...place, remark: text })),
  ];
  const rows = new Map<string, CsvRow>();
  for (const one of said) {
    if (!patterns.includes(one.pattern)) continue;
    const before = rows.get(keyOf(one)) ?? { numbers: {}, priority: null, remark: null };
    rows.set(keyOf(one), { ...before, ...one });
  }
  return [...rows.values()].sort(
    (a, b) => orderOf(a) - orderOf(b) || (a.start ?? -1) - (b.start ?? -1),
  );
}

function keyOf({ pattern, start }: Place): string {
  return `${pattern} ${start}`;
}

function orderOf({ pattern }: Place): number {
  return PATTERNS.findIndex(({ id }) => id === pattern);
}

/**
 * A state with what rows say: their patterns join it, a filled cell takes the place of what the
 * state has, an empty one leaves it. Null if the chart would have more lines than a chart can.
 */
export function withCsv(state: ChartState, rows: readonly CsvRow[]): ChartState | null {
  const measured = new Map<string, MeasuredLine>(state.measured.map((one) => [keyOf(one), one]));
  const priorities = new Map<string, PriorityEntry>(
    state.priorities.map((one) => [keyOf(one), one]),
  );
  const remarks = new Map<string, Remark>(state.remarks.map((one) => [keyOf(one), one]));
  for (const { pattern, start, numbers, priority, remark } of rows) {
    const key = keyOf({ pattern, start });
    if (priority) priorities.set(key, { pattern, start, priority });
    if (start === null) continue;
    if (remark) remarks.set(key, { pattern, start, text: remark });
    if (SPEEDS.some((speed) => numbers[speed] !== undefined))
      measured.set(key, { ...measured.get(key), pattern, start, ...numbers });
  }
  if ([measured, priorities, remarks].some(({ size }) => size > MOST_LINES)) return null;
  return inOrder({
    ...state,
    patterns: [...state.patterns, ...rows.map(({ pattern }) => pattern)],
    measured: [...measured.values()],
    priorities: [...priorities.values()],
    remarks: [...remarks.values()],
  });
}
