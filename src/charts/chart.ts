/**
 * A chart: the numbers of some patterns on one table. A chart document says how the numbers come
 * about (so far: computed from a table and its condition); a chart is the numbers themselves.
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
}

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
  /** Oldest first; the numbers belong to the last. */
  readonly revisions: readonly [Revision, ...Revision[]];
}

/** A number at one speed, in the chart's naming: as solved, and as printed. */
export interface LineNumber {
  readonly exact: number;
  readonly printed: Decimal;
}

export interface Line {
  readonly pattern: PatternId;
  readonly start: Decimal;
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
  const last = document.revisions[document.revisions.length - 1] ?? document.revisions[0];
  return { table: TABLES[document.table], condition: last.condition };
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
 * Solves every line of the chart at its three speeds, struck as its pattern is. A line without a
 * number is a gap.
 */
export function computeChart(document: ChartDocument, naming: Naming = 'through'): Chart {
  const setting = settingOf(document);
  const lines: Line[] = [];
  const gaps: Gap[] = [];
  for (const id of document.patterns) {
    const pattern = patternOf(id);
    const starts = startsOf(document, pattern);
    const column = solveStarts(setting, pattern, starts.map(toNumber), pattern.stroke);
    const name = (start: Decimal) => (aim: number) =>
      nameAim(setting.table, pattern, toNumber(start), aim, naming);
    for (const [n, start] of starts.entries()) {
      const solved = column[n] as LineNumbers;
      const missing = gapOf(id, start, solved);
      if (missing) gaps.push(missing);
      else
        lines.push({
          pattern: id,
          start,
          numbers: printNumbers(solved, name(start), document.printStep),
        });
    }
  }
  return { document, naming, setting, lines, gaps };
}

function gapOf(pattern: PatternId, start: Decimal, solved: LineNumbers): Gap | null {
  for (const speed of SPEEDS) {
    const { why } = solved[speed];
    if (why) return { pattern, start, speed, why };
  }
  return null;
}

function printNumbers(
  solved: LineNumbers,
  name: (aim: number) => number,
  step: Decimal,
): Line['numbers'] {
  const print = (speed: Speed): LineNumber => {
    const { aim } = solved[speed];
    if (aim === null) throw new Error(`no number at ${speed} speed`);
    const exact = name(aim);
    return { exact, printed: roundTo(exact, step) };
  };
  return { soft: print('soft'), medium: print('medium'), firm: print('firm') };
}
