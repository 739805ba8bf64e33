/**
 * A chart: the numbers of some patterns on one table. A chart document says how the numbers come
 * about (computed from a table and its condition, or measured on it); a chart is the numbers
 * themselves.
 */

import {
  type Condition,
  type LineNumbers,
  type Naming,
  nameAim,
  type Setting,
  SPEEDS,
  type Speed,
  solveStarts,
  TABLES,
  type TableSize,
  type Unreachable,
} from '../table/index.ts';
import { type Decimal, roundTo, toDecimal, toNumber } from './decimal.ts';
import { PATTERNS, type Pattern, type PatternId } from './patterns.ts';

/** One saved state of a chart: what changed, when and why. */
export interface Revision {
  readonly number: number;
  /** ISO 8601 calendar date. */
  readonly date: string;
  readonly author: string;
  readonly why: string;
  readonly condition: Condition;
  /**
   * Lines as they were measured on the table, in any order, each start of a pattern once. Lines of a
   * pattern that the chart does not teach are kept, and are no lines of it.
   */
  readonly measured?: readonly MeasuredLine[];
}

/** Numbers through the sight, whatever a player's naming. */
export interface MeasuredLine extends Readonly<Record<Speed, Decimal>> {
  readonly pattern: PatternId;
  readonly start: Decimal;
}

/**
 * `computed`: lines are solved, and a measured line stands in the place of the solved one of its
 * start. `measured`: only measured lines are lines, and nothing is solved.
 */
export const BASES = ['computed', 'measured'] as const;
export type Basis = (typeof BASES)[number];

export interface ChartDocument {
  readonly kind: 'throughline-chart';
  readonly version: 1;
  readonly id: string;
  readonly name: string;
  readonly table: TableSize;
  readonly patterns: readonly PatternId[];
  /** Distance between two start diamonds of the chart. */
  readonly startStep: Decimal;
  /** Resolution in which numbers are printed. */
  readonly printStep: Decimal;
  /** Absent: computed. */
  readonly basis?: Basis;
  /** Oldest first; the numbers belong to the last. */
  readonly revisions: readonly [Revision, ...Revision[]];
}

/** A number at one speed, in the chart's naming: as solved or measured, and as printed. */
export interface LineNumber {
  readonly exact: number;
  readonly printed: Decimal;
}

export interface Line {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly source: Basis;
  readonly numbers: Readonly<Record<Speed, LineNumber>>;
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
  /** What its numbers name; the whole chart is in one naming. */
  readonly naming: Naming;
  readonly setting: Setting;
  readonly patterns: readonly PatternId[];
  readonly lines: readonly Line[];
  readonly gaps: readonly Gap[];
}

const byId = new Map<string, Pattern>(PATTERNS.map((pattern) => [pattern.id, pattern]));

/** @throws if there is no such pattern; ids from outside go through `isPatternId` first */
export function patternOf(id: PatternId): Pattern {
  const pattern = byId.get(id);
  if (!pattern) throw new Error(`no pattern ${id}`);
  return pattern;
}

export function isPatternId(id: string): id is PatternId {
  return byId.has(id);
}

/** The table and condition of the chart's last revision. */
export function settingOf(document: ChartDocument): Setting {
  return { table: TABLES[document.table], condition: lastRevision(document).condition };
}

function lastRevision({ revisions }: ChartDocument): Revision {
  return revisions[revisions.length - 1] ?? revisions[0];
}

/** Start diamonds of a pattern at the chart's step, in order. */
export function startsOf({ startStep }: ChartDocument, { starts: [first, last] }: Pattern) {
  return startsFrom(toDecimal(first), toDecimal(last), startStep);
}

/** Start diamonds from one to another, both included if the step allows. */
export function startsFrom(from: Decimal, to: Decimal, step: Decimal): readonly Decimal[] {
  const count = Math.floor((to - from) / step) + 1;
  return Array.from({ length: count }, (_, n) => (from + n * step) as Decimal);
}

/**
 * The lines of a chart, each pattern's by their starts: solved at three speeds, struck as the pattern
 * is, or measured, as the document says. A line without a number is a gap.
 */
export function computeChart(document: ChartDocument, naming: Naming = 'through'): Chart {
  const setting = settingOf(document);
  const lines: Line[] = [];
  const gaps: Gap[] = [];
  for (const id of document.patterns) {
    const measured = measuredLines(document, id, naming);
    const taken = new Set(measured.map(({ start }) => start));
    const solved = document.basis === 'measured' ? none : solvedLines(document, id, naming);
    const kept = solved.lines.filter(({ start }) => !taken.has(start));
    lines.push(...[...kept, ...measured].sort((a, b) => a.start - b.start));
    gaps.push(...solved.gaps.filter(({ start }) => !taken.has(start)));
  }
  return { document, naming, setting, patterns: document.patterns, lines, gaps };
}

const none: Pick<Chart, 'lines' | 'gaps'> = { lines: [], gaps: [] };

/**
 * All starts of a pattern, measured ones too: each number begins from its neighbours' (solve.ts), and
 * so a measured line does not move the others by as much as a rounding.
 */
function solvedLines(document: ChartDocument, id: PatternId, naming: Naming) {
  const setting = settingOf(document);
  const pattern = patternOf(id);
  const starts = startsOf(document, pattern);
  const column = solveStarts(setting, pattern, starts.map(toNumber), pattern.stroke);
  const lines: Line[] = [];
  const gaps: Gap[] = [];
  for (const [n, start] of starts.entries()) {
    const solved = column[n] as LineNumbers;
    const missing = gapOf(id, start, solved);
    if (missing) gaps.push(missing);
    else {
      const aims = bySpeed((speed) => aimIn(solved, speed));
      lines.push(lineOf(document, naming, { pattern: id, start, source: 'computed' }, aims));
    }
  }
  return { lines, gaps };
}

function measuredLines(document: ChartDocument, id: PatternId, naming: Naming): readonly Line[] {
  const { measured = [] } = lastRevision(document);
  return measured
    .filter(({ pattern }) => pattern === id)
    .map((line) => {
      const which = { pattern: id, start: line.start, source: 'measured' } as const;
      const aims = bySpeed((speed) => toNumber(line[speed]));
      return lineOf(document, naming, which, aims);
    });
}

function gapOf(pattern: PatternId, start: Decimal, solved: LineNumbers): Gap | null {
  for (const speed of SPEEDS) {
    const { why } = solved[speed];
    if (why) return { pattern, start, speed, why };
  }
  return null;
}

function aimIn(solved: LineNumbers, speed: Speed): number {
  const { aim } = solved[speed];
  if (aim === null) throw new Error(`no number at ${speed} speed`);
  return aim;
}

/** @param aims through the sight */
function lineOf(
  document: ChartDocument,
  naming: Naming,
  which: Omit<Line, 'numbers'>,
  aims: Readonly<Record<Speed, number>>,
): Line {
  const { table } = settingOf(document);
  const pattern = patternOf(which.pattern);
  const numbers = bySpeed((speed): LineNumber => {
    const exact = nameAim(table, pattern, toNumber(which.start), aims[speed], naming);
    return { exact, printed: roundTo(exact, document.printStep) };
  });
  return { ...which, numbers };
}

function bySpeed<T>(of: (speed: Speed) => T): Readonly<Record<Speed, T>> {
  return { soft: of('soft'), medium: of('medium'), firm: of('firm') };
}
