/**
 * A chart: the numbers of some patterns on one table. A chart document says how the numbers come
 * about (computed from a table and its condition, or measured on it); a chart is the numbers
 * themselves.
 */

import {
  type Naming,
  nameAim,
  type Setting,
  SPEEDS,
  type Speed,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, roundTo, toNumber } from '../document/decimal.ts';
import {
  type Basis,
  type ChartDocument,
  type ChartState,
  lastRevision,
  type MeasuredLine,
  settingOf,
  stateOf,
} from '../document/document.ts';
import type { PatternId } from '../document/patterns.ts';
import { patternOf } from '../document/patterns.ts';
import { startsOf } from '../document/starts.ts';
import { type Between, betweenMeasured, filledIn, NOTHING_BETWEEN } from './filled-in.ts';
import { oddAims } from './odd-starts.ts';
import { type Aims, type Solved, solveAims, solvedFrom } from './solved.ts';
import type { NumberSource } from './source.ts';

/** A number at one speed, in the chart's naming: as solved or measured, and as printed. */
export interface LineNumber {
  readonly exact: number;
  readonly printed: Decimal;
}

/** One of a chart's lines. */
export interface ChartNumber extends LineNumber {
  readonly source: NumberSource;
}

export interface Line {
  readonly pattern: PatternId;
  readonly start: Decimal;
  /** Measured, if any of its numbers is. */
  readonly source: Basis;
  readonly numbers: Readonly<Record<Speed, ChartNumber>>;
}

/** A start of a pattern that has no number at some speed. */
export interface Gap {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly speed: Speed;
  readonly why: Unreachable;
}

export interface Chart {
  readonly document: ChartDocument;
  /** That of its last revision, or of one that is being made. */
  readonly state: ChartState;
  /** What its numbers name; the whole chart is in one naming. */
  readonly naming: Naming;
  readonly setting: Setting;
  readonly patterns: readonly PatternId[];
  readonly lines: readonly Line[];
  readonly gaps: readonly Gap[];
  /** Whose memory some of its lines use; null if all have their own. */
  readonly shared: Shared | null;
}

/** Lines whose memory is that of another chart's lines: the same number in the head. */
export interface Shared {
  /** The other chart's id. */
  readonly chart: string;
  /** By `placeKey`. */
  readonly lines: ReadonlySet<string>;
}

/**
 * The lines of a chart, each pattern's by their starts: solved at three speeds, struck as the pattern
 * is, or measured, as the document says. A line without a number is a gap.
 * @param before numbers that need not be solved again
 */
export function computeChart(
  document: ChartDocument,
  naming: Naming = 'through',
  shared: Shared | null = null,
  before: Solved | null = null,
): Chart {
  const state = stateOf(lastRevision(document));
  const setting = settingOf(document);
  const known = before?.from === solvedFrom(document) ? before : null;
  const making: Making = { document, state, setting, naming, known };
  const parts = state.patterns.map((id) => patternLines(making, id));
  return {
    document,
    state,
    setting,
    naming,
    patterns: state.patterns,
    lines: parts.flatMap(({ lines }) => lines),
    gaps: parts.flatMap(({ gaps }) => gaps),
    shared,
  };
}

interface Making extends Pick<Chart, 'document' | 'state' | 'setting' | 'naming'> {
  readonly known: Solved | null;
}
type LinesAndGaps = Pick<Chart, 'lines' | 'gaps'>;
type Column = ReadonlyMap<Decimal, Aims>;

function patternLines(making: Making, id: PatternId): LinesAndGaps {
  const measured = making.state.measured.filter(({ pattern }) => pattern === id);
  const computed = making.document.basis === 'measured' ? nothing : ownColumn(making, id);
  const lines: Line[] = [];
  const gaps: Gap[] = [];
  const take = (made: Line | Gap): void => {
    if ('numbers' in made) lines.push(made);
    else gaps.push(made);
  };
  const taken = new Set(measured.map(({ start }) => start));
  for (const [start, numbers] of computed)
    if (!taken.has(start)) take(computedLine(making, id, start, numbers));
  const between =
    making.document.basis === 'measured' ? betweenMeasured(measured) : NOTHING_BETWEEN;
  const lacking = measured.filter((line) => !computed.has(line.start) && !isWhole(line));
  const odd = oddAims(making.setting, id, lacking.length);
  for (const line of measured) {
    const { start } = line;
    take(measuredLine(making, line, between, () => computed.get(start) ?? odd(start)));
  }
  const byStart = (a: { readonly start: Decimal }, b: { readonly start: Decimal }) =>
    a.start - b.start;
  return { lines: lines.sort(byStart), gaps: gaps.sort(byStart) };
}

const nothing: Column = new Map();

function isWhole(line: MeasuredLine): boolean {
  return SPEEDS.every((speed) => line[speed] !== undefined);
}

/**
 * All starts of a pattern, measured ones too: each number begins from its neighbours' (solve.ts), and
 * so a measured line does not move the others by as much as a rounding.
 */
function ownColumn({ document, setting, known }: Making, id: PatternId): Column {
  const starts = startsOf(document, patternOf(id));
  const aims = known?.columns.get(id) ?? solveAims(setting, id, starts);
  return new Map(starts.map((start, n) => [start, aims[n] as Aims]));
}

function computedLine(
  making: Making,
  pattern: PatternId,
  start: Decimal,
  numbers: Aims,
): Line | Gap {
  for (const speed of SPEEDS) {
    const { why } = numbers[speed];
    if (why) return { pattern, start, speed, why };
  }
  const aims = bySpeed((speed) => ({ aim: aimIn(numbers, speed), source: 'computed' as const }));
  return lineOf(making, { pattern, start, source: 'computed' }, aims);
}

function aimIn(solved: Aims, speed: Speed): number {
  const { aim } = solved[speed];
  if (aim === null) throw new Error(`no number at ${speed} speed`);
  return aim;
}

/**
 * A line of which at least one number is measured. What it lacks is interpolated, on a measured
 * chart and between measured numbers; else it keeps its computed distance from those that it has.
 */
function measuredLine(
  making: Making,
  line: MeasuredLine,
  between: Between,
  computed: () => Aims,
): Line | Gap {
  const { pattern: id, start } = line;
  const filled = filledIn(line, between, patternOf(id), computed);
  if ('why' in filled) return { pattern: id, start, ...filled };
  return lineOf(making, { pattern: id, start, source: 'measured' }, filled);
}

/** @param aims through the sight */
function lineOf(
  { document, setting: { table }, naming }: Making,
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

function bySpeed<T>(of: (speed: Speed) => T): Readonly<Record<Speed, T>> {
  return { soft: of('soft'), medium: of('medium'), firm: of('firm') };
}
