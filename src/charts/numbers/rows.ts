/** What an editor shows of a pattern: each start's numbers as given, as computed, and as filled in. */

import { SPEEDS, type Speed, TABLES, type Unreachable } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { ChartDocument, ChartState, MeasuredLine } from '../document/document.ts';
import type { PatternId } from '../document/patterns.ts';
import { patternOf } from '../document/patterns.ts';
import { startsOf } from '../document/starts.ts';
import {
  type Between,
  betweenMeasured,
  filledIn,
  type Missing,
  NOTHING_BETWEEN,
} from './filled-in.ts';
import { oddAims } from './odd-starts.ts';
import { outliers } from './outliers.ts';
import { type Aims, solveAims } from './solved.ts';
import type { NumberSource } from './source.ts';

/** All numbers in diamonds through the sight. */
export interface EditorCell {
  /** As given; null if the cell is empty. */
  readonly own: Decimal | null;
  readonly computed: number | null;
  /** Why nothing is computed. */
  readonly why: Unreachable | null;
  /** What the chart has, or could be given, where the cell is empty. */
  readonly filled: { readonly aim: number; readonly source: NumberSource } | null;
  /** What the number should be about by the others, if it does not fit them. */
  readonly about: number | null;
}

export interface EditorRow {
  readonly start: Decimal;
  /** Of a row with a typed number: the speed without one, for which it is no line of the chart. */
  readonly lacks: Missing | null;
  readonly cells: Readonly<Record<Speed, EditorCell>>;
}

type Head = Pick<ChartDocument, 'table' | 'startStep' | 'basis'>;
/** Solved numbers by start. */
export type Column = ReadonlyMap<Decimal, Aims>;

/** Starts of an editor's rows: the chart's own, those of given numbers, and others that are wanted. */
export function rowStarts(
  head: Head,
  state: ChartState,
  id: PatternId,
  others: readonly Decimal[] = [],
): readonly Decimal[] {
  const given = linesOf(state, id).map(({ start }) => start);
  const all = new Set([...startsOf(head, patternOf(id)), ...given, ...others]);
  return [...all].sort((a, b) => a - b);
}

/** A pattern's numbers solved, as the chart solves them: its own starts together, any other alone. */
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
  const odd = oddAims(setting, id, others.length);
  return new Map<Decimal, Aims>([
    ...own.map((start, n) => [start, solved[n] as Aims] as const),
    ...others.map((start) => [start, odd(start)] as const),
  ]);
}

/** @param tolerance of outliers, diamonds */
export function editorRows(
  head: Head,
  state: ChartState,
  id: PatternId,
  column: Column,
  tolerance: number,
): readonly EditorRow[] {
  const lines = linesOf(state, id);
  const between = betweenMeasured(lines);
  const about = new Map(
    SPEEDS.map((speed) => [speed, aboutOf(lines, speed, column, tolerance)] as const),
  );
  return [...column.keys()]
    .sort((a, b) => a - b)
    .map((start) => {
      const line = lines.find((one) => one.start === start) ?? { pattern: id, start };
      const numbers = column.get(start) as Aims;
      const { filled, lacks } = filling(head, line, between, numbers);
      return {
        start,
        lacks,
        cells: bySpeed((speed) => ({
          own: line[speed] ?? null,
          computed: numbers[speed].aim,
          why: numbers[speed].why,
          filled: line[speed] === undefined ? filled(speed) : null,
          about: about.get(speed)?.get(start) ?? null,
        })),
      };
    });
}

/** The computed numbers of a pattern at the resolution in which measured ones are kept. */
export function computedLines(id: PatternId, column: Column): readonly MeasuredLine[] {
  return [...column].map(([start, numbers]) => ({
    pattern: id,
    start,
    ...Object.fromEntries(
      SPEEDS.flatMap((speed) => {
        const { aim } = numbers[speed];
        // As many decimals as can be typed.
        return aim === null ? [] : [[speed, (Math.round(aim * 1000) * 10) as Decimal]];
      }),
    ),
  }));
}

function linesOf({ measured }: ChartState, id: PatternId): readonly MeasuredLine[] {
  return measured.filter(({ pattern }) => pattern === id).sort((a, b) => a.start - b.start);
}

function aboutOf(
  lines: readonly MeasuredLine[],
  speed: Speed,
  column: Column,
  tolerance: number,
): ReadonlyMap<Decimal, number> {
  const given = lines.flatMap((line) => {
    const number = line[speed];
    const computed = column.get(line.start)?.[speed].aim ?? null;
    return number === undefined
      ? []
      : [{ start: toNumber(line.start), number: toNumber(number), computed }];
  });
  const found = outliers(given, tolerance);
  return new Map(
    lines.flatMap(({ start }) => {
      const one = found.find((outlier) => outlier.start === toNumber(start));
      return one ? [[start, one.about] as const] : [];
    }),
  );
}

type Filled = EditorCell['filled'];

interface Filling {
  readonly filled: (speed: Speed) => Filled;
  readonly lacks: Missing | null;
}

/** What stands in a line's empty cells: as the chart fills them in or, where it has no line, would. */
function filling({ basis }: Head, line: MeasuredLine, between: Between, numbers: Aims): Filling {
  if (SPEEDS.some((speed) => line[speed] !== undefined)) {
    const inside = basis === 'measured' ? between : NOTHING_BETWEEN;
    const filled = filledIn(line, inside, patternOf(line.pattern), () => numbers);
    if ('why' in filled) return { filled: () => null, lacks: filled };
    return { filled: (speed) => filled[speed], lacks: null };
  }
  if (basis === 'computed') {
    const computed = (speed: Speed): Filled => {
      const { aim } = numbers[speed];
      return aim === null ? null : { aim, source: 'computed' };
    };
    return { filled: computed, lacks: null };
  }
  const interpolated = (speed: Speed): Filled => {
    const aim = between(speed, line.start);
    return aim === null ? null : { aim, source: 'interpolated' };
  };
  return { filled: interpolated, lacks: null };
}

function bySpeed<T>(of: (speed: Speed) => T): Readonly<Record<Speed, T>> {
  return { soft: of('soft'), medium: of('medium'), firm: of('firm') };
}
