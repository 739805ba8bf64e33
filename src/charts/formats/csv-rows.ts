/** Converts a chart's lines to rows of a table, and applies rows to a chart. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import type { Decimal } from '../document/decimal.ts';
import {
  byPlace,
  type ChartState,
  inOrder,
  type MeasuredLine,
  type Place,
  type Priority,
  type PriorityEntry,
  placeKey,
  type Remark,
} from '../document/document.ts';
import { MOST_LINES } from '../document/limits.ts';
import type { PatternId } from '../document/patterns.ts';
import type { Chart } from '../numbers/chart.ts';

/** A row about a line, or about a whole pattern if `start` is null. */
export interface CsvRow {
  readonly pattern: PatternId;
  readonly start: Decimal | null;
  /** Numbers through the sight. */
  readonly numbers: Readonly<Partial<Record<Speed, Decimal>>>;
  readonly priority: Priority | null;
  readonly remark: string | null;
}

/** Returns the measured numbers, priorities and remarks of the chart's patterns. */
export function measuredRows(state: ChartState): readonly CsvRow[] {
  return rowsOf(state, state.measured.map(numbersOf));
}

/** Returns all lines with their printed numbers. */
export function printedRows({ state, naming, lines }: Chart): readonly CsvRow[] {
  if (naming !== 'through') throw new Error(`numbers of naming ${naming} in a table`);
  const printed = lines.map(({ pattern, start, numbers: { soft, medium, firm } }) => ({
    ...{ pattern, start },
    numbers: { soft: soft.printed, medium: medium.printed, firm: firm.printed },
  }));
  return rowsOf(state, printed);
}

type PartOfRow = Place & Partial<CsvRow>;

function numbersOf({ pattern, start, ...numbers }: MeasuredLine) {
  return { pattern, start, numbers };
}

/** Joins numbers with the state's priorities and remarks, in one row for each place. */
function rowsOf({ patterns, priorities, remarks }: ChartState, numbers: readonly PartOfRow[]) {
  const parts: readonly PartOfRow[] = [
    ...numbers,
    ...priorities,
    ...remarks.map(({ text, ...place }) => ({ ...place, remark: text })),
  ];
  const rows = new Map<string, CsvRow>();
  for (const part of parts) {
    if (!patterns.includes(part.pattern)) continue;
    const before = rows.get(placeKey(part)) ?? { numbers: {}, priority: null, remark: null };
    rows.set(placeKey(part), { ...before, ...part });
  }
  return [...rows.values()].sort(byPlace);
}

/**
 * Applies rows to a state: adds their patterns, and replaces the values for which a row has a
 * filled cell. Empty cells change nothing. Returns null if the chart would have too many lines.
 */
export function withCsv(state: ChartState, rows: readonly CsvRow[]): ChartState | null {
  const measured = byKey<MeasuredLine>(state.measured);
  const priorities = byKey<PriorityEntry>(state.priorities);
  const remarks = byKey<Remark>(state.remarks);
  for (const { pattern, start, numbers, priority, remark } of rows) {
    const key = placeKey({ pattern, start });
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

function byKey<T extends Place>(entries: readonly T[]): Map<string, T> {
  return new Map(entries.map((entry) => [placeKey(entry), entry]));
}
