/**
 * Makes the editor's table of a pattern: the numbers of each start as typed, computed and filled
 * in.
 */

import { SPEEDS, type Speed, TABLES, type Unreachable } from '../../table/index.ts';
import { type Decimal, toDecimal, toNumber } from '../document/decimal.ts';
import {
  type ChartDocument,
  type ChartState,
  hasNumber,
  type MeasuredLine,
} from '../document/document.ts';
import { type PatternId, patternOf } from '../document/patterns.ts';
import { startsOf } from '../document/starts.ts';
import { bySpeed } from './by-speed.ts';
import {
  type Between,
  betweenMeasured,
  filledIn,
  type Missing,
  NOTHING_BETWEEN,
} from './filled-in.ts';
import type { NumberSource } from './line.ts';
import { offStepAims } from './off-step.ts';
import { outliers } from './outliers.ts';
import { type Aims, solveAims } from './solved.ts';

/** A cell of the editor. All its numbers are in diamonds through the sight. */
export interface EditorCell {
  /** The number as typed; null if the cell is empty. */
  readonly own: Decimal | null;
  readonly computed: number | null;
  /** Why there is no computed number; null if there is one. */
  readonly why: Unreachable | null;
  /** The chart's number for an empty cell, or a number to suggest. */
  readonly filled: { readonly aim: number; readonly source: NumberSource } | null;
  /** If this number does not fit the others, the number that would. */
  readonly expected: number | null;
}

export interface EditorRow {
  readonly start: Decimal;
  /**
   * The speed without a number. Because of it, a row with a typed number is no line of the chart.
   */
  readonly missing: Missing | null;
  readonly cells: Readonly<Record<Speed, EditorCell>>;
}

type Head = Pick<ChartDocument, 'table' | 'startStep' | 'basis'>;
/** Solved numbers by start. */
export type Column = ReadonlyMap<Decimal, Aims>;

/**
 * Returns the starts of the editor's rows: the chart's own, those of typed numbers, and any others.
 */
export function rowStarts(
  head: Head,
  state: ChartState,
  id: PatternId,
  others: readonly Decimal[] = [],
): readonly Decimal[] {
  const typed = linesOf(state, id).map(({ start }) => start);
  const all = new Set([...startsOf(head, patternOf(id)), ...typed, ...others]);
  return [...all].sort((a, b) => a - b);
}

/**
 * Solves a pattern's numbers as the chart does: its own starts together, any other start
 * separately.
 */
export function solvedColumn(
  { table, startStep }: Head,
  { condition }: ChartState,
  id: PatternId,
  starts: readonly Decimal[],
): Column {
  const pattern = patternOf(id);
  const setting = { table: TABLES[table], condition };
  const own = startsOf({ startStep }, pattern);
  const solved = solveAims(setting, id, own);
  const others = starts.filter((start) => !own.includes(start));
  const aimsAt = offStepAims(setting, id, others.length);
  return new Map<Decimal, Aims>([
    ...own.map((start, n) => [start, solved[n] as Aims] as const),
    ...others.map((start) => [start, aimsAt(start)] as const),
  ]);
}

/**
 * Returns the rows of the editor's table.
 * @param tolerance how far a number may be off before it can be an outlier, in diamonds
 */
export function editorRows(
  head: Head,
  state: ChartState,
  id: PatternId,
  column: Column,
  tolerance: number,
): readonly EditorRow[] {
  const lines = linesOf(state, id);
  const between = betweenMeasured(lines);
  const expected = bySpeed((speed) => expectedAt(lines, speed, column, tolerance));
  return [...column.keys()]
    .sort((a, b) => a - b)
    .map((start) => {
      const line = lines.find((one) => one.start === start) ?? { pattern: id, start };
      const numbers = column.get(start) as Aims;
      const { filled, missing } = filling(head, line, between, numbers);
      return {
        start,
        missing,
        cells: bySpeed((speed) => ({
          own: line[speed] ?? null,
          computed: numbers[speed].aim,
          why: numbers[speed].why,
          filled: line[speed] === undefined ? filled(speed) : null,
          expected: expected[speed].get(start) ?? null,
        })),
      };
    });
}

/** Returns a pattern's computed numbers as measured lines, rounded to what can be typed. */
export function computedLines(id: PatternId, column: Column): readonly MeasuredLine[] {
  return [...column].map(([start, numbers]) => ({
    pattern: id,
    start,
    ...Object.fromEntries(
      SPEEDS.flatMap((speed) => {
        const { aim } = numbers[speed];
        return aim === null ? [] : [[speed, (Math.round(aim * 1000) * 10) as Decimal]];
      }),
    ),
  }));
}

function linesOf({ measured }: ChartState, id: PatternId): readonly MeasuredLine[] {
  return measured.filter(({ pattern }) => pattern === id).sort((a, b) => a.start - b.start);
}

/** Returns the expected numbers of outliers, by start. */
function expectedAt(
  lines: readonly MeasuredLine[],
  speed: Speed,
  column: Column,
  tolerance: number,
): ReadonlyMap<Decimal, number> {
  const typed = lines.flatMap((line) => {
    const number = line[speed];
    const computed = column.get(line.start)?.[speed].aim ?? null;
    return number === undefined
      ? []
      : [{ start: toNumber(line.start), number: toNumber(number), computed }];
  });
  return new Map(
    outliers(typed, tolerance).map(({ start, expected }) => [toDecimal(start), expected] as const),
  );
}

type Filled = EditorCell['filled'];

interface Filling {
  readonly filled: (speed: Speed) => Filled;
  readonly missing: Missing | null;
}

/**
 * Returns what fills a line's empty cells: the numbers that the chart fills in, or would fill in if
 * it had the line.
 */
function filling({ basis }: Head, line: MeasuredLine, between: Between, numbers: Aims): Filling {
  if (hasNumber(line)) {
    const inside = basis === 'measured' ? between : NOTHING_BETWEEN;
    const filled = filledIn(line, inside, patternOf(line.pattern), () => numbers);
    if ('why' in filled) return { filled: () => null, missing: filled };
    return { filled: (speed) => filled[speed], missing: null };
  }
  if (basis === 'computed') {
    const computed = (speed: Speed): Filled => {
      const { aim } = numbers[speed];
      return aim === null ? null : { aim, source: 'computed' };
    };
    return { filled: computed, missing: null };
  }
  const interpolated = (speed: Speed): Filled => {
    const aim = between(speed, line.start);
    return aim === null ? null : { aim, source: 'interpolated' };
  };
  return { filled: interpolated, missing: null };
}
