/** Computes the lines and gaps of one pattern of a chart. */

import { type Naming, nameAim, type Setting, SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, roundTo, toNumber } from '../document/decimal.ts';
import type { ChartDocument, ChartState, MeasuredLine } from '../document/document.ts';
import { type PatternId, patternOf } from '../document/patterns.ts';
import { startsOf } from '../document/starts.ts';
import { bySpeed } from './by-speed.ts';
import { type Between, betweenMeasured, filledIn, NOTHING_BETWEEN } from './filled-in.ts';
import type { ChartNumber, Gap, Line, NumberSource } from './line.ts';
import { offStepAims } from './off-step.ts';
import { type Aims, type Solved, solveAims } from './solved.ts';

/** Everything that the lines of a chart are computed from. */
export interface LineRequest {
  readonly document: ChartDocument;
  readonly state: ChartState;
  readonly setting: Setting;
  readonly naming: Naming;
  /** Numbers that were solved before, for the same table and condition. */
  readonly solved: Solved | null;
}

export interface LinesAndGaps {
  readonly lines: readonly Line[];
  readonly gaps: readonly Gap[];
}

/** Solved numbers by start. */
type Column = ReadonlyMap<Decimal, Aims>;

/**
 * Returns the lines and the gaps of a pattern, each in the order of their starts. A measured line
 * replaces the computed one with the same start.
 */
export function patternLines(request: LineRequest, id: PatternId): LinesAndGaps {
  const measured = request.state.measured.filter(({ pattern }) => pattern === id);
  const column = request.document.basis === 'measured' ? NO_COLUMN : solvedColumn(request, id);
  const replaced = new Set(measured.map(({ start }) => start));
  const computed = [...column].filter(([start]) => !replaced.has(start));
  const all = [
    ...computed.map(([start, aims]) => computedLine(request, id, start, aims)),
    ...measuredLines(request, id, measured, column),
  ].sort((a, b) => a.start - b.start);
  return { lines: all.filter(isLine), gaps: all.filter((one): one is Gap => !isLine(one)) };
}

function isLine(one: Line | Gap): one is Line {
  return 'numbers' in one;
}

const NO_COLUMN: Column = new Map();

/**
 * Returns the solved numbers at all starts of a pattern, including measured ones. The solver begins
 * each number at its neighbors' numbers (solve.ts). So leaving one start out would change the
 * others by a rounding error.
 */
function solvedColumn({ document, setting, solved }: LineRequest, id: PatternId): Column {
  const starts = startsOf(document, patternOf(id));
  const aims = solved?.columns.get(id) ?? solveAims(setting, id, starts);
  return new Map(starts.map((start, n) => [start, aims[n] as Aims]));
}

function computedLine(
  request: LineRequest,
  pattern: PatternId,
  start: Decimal,
  solved: Aims,
): Line | Gap {
  for (const speed of SPEEDS) {
    const { why } = solved[speed];
    if (why) return { pattern, start, speed, why };
  }
  const aims = bySpeed((speed) => ({ aim: aimIn(solved, speed), source: 'computed' as const }));
  return lineOf(request, { pattern, start, source: 'computed' }, aims);
}

function aimIn(solved: Aims, speed: Speed): number {
  const { aim } = solved[speed];
  if (aim === null) throw new Error(`no number at ${speed} speed`);
  return aim;
}

function measuredLines(
  request: LineRequest,
  id: PatternId,
  measured: readonly MeasuredLine[],
  column: Column,
): readonly (Line | Gap)[] {
  const between =
    request.document.basis === 'measured' ? betweenMeasured(measured) : NOTHING_BETWEEN;
  const offStep = measured.filter((line) => !column.has(line.start) && !isWhole(line));
  const aimsAt = offStepAims(request.setting, id, offStep.length);
  return measured.map((line) =>
    measuredLine(request, line, between, () => column.get(line.start) ?? aimsAt(line.start)),
  );
}

function isWhole(line: MeasuredLine): boolean {
  return SPEEDS.every((speed) => line[speed] !== undefined);
}

/**
 * Computes a line with at least one measured number. Its other numbers are filled in
 * (filled-in.ts).
 */
function measuredLine(
  request: LineRequest,
  line: MeasuredLine,
  between: Between,
  computed: () => Aims,
): Line | Gap {
  const { pattern, start } = line;
  const filled = filledIn(line, between, patternOf(pattern), computed);
  if ('why' in filled) return { pattern, start, ...filled };
  return lineOf(request, { pattern, start, source: 'measured' }, filled);
}

/**
 * Returns a line with its numbers in the chart's naming.
 * @param aims through the sight
 */
function lineOf(
  { document, setting: { table }, naming }: LineRequest,
  which: Omit<Line, 'numbers'>,
  aims: Readonly<Record<Speed, { readonly aim: number; readonly source: NumberSource }>>,
): Line {
  const pattern = patternOf(which.pattern);
  const numbers = bySpeed((speed): ChartNumber => {
    const { aim, source } = aims[speed];
    const exact = nameAim(table, pattern, toNumber(which.start), aim, naming);
    return { exact, printed: roundTo(exact, document.printStep), source };
  });
  return { ...which, numbers };
}
