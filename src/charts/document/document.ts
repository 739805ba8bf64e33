/**
 * A chart document: the source of a chart's numbers, revision by revision. The numbers themselves
 * are computed from it (numbers/chart.ts).
 */

import {
  type Condition,
  type Setting,
  SPEEDS,
  type Speed,
  TABLES,
  type TableSize,
} from '../../table/index.ts';
import type { Decimal } from './decimal.ts';
import { PATTERNS, type PatternId } from './patterns.ts';

/** The place of a line in a chart, or of a whole pattern if `start` is null. */
export interface Place {
  readonly pattern: PatternId;
  readonly start: Decimal | null;
}

/** The place of a line in a chart. */
export interface LinePlace extends Place {
  readonly start: Decimal;
}

/**
 * A line's numbers as measured on the table or typed, for at least one speed. They are through the
 * sight, whichever naming the player uses.
 */
export interface MeasuredLine extends LinePlace, Readonly<Partial<Record<Speed, Decimal>>> {}

/** When players should learn a line, as the chart's maker ranks it. */
export const PRIORITIES = ['first', 'in turn', 'last'] as const;
export type Priority = (typeof PRIORITIES)[number];

export interface PriorityEntry extends Place {
  readonly priority: Priority;
}

/** A sentence about a line that the chart's maker wrote for everyone who uses the chart. */
export interface Remark extends LinePlace {
  readonly text: string;
}

/** One of a chart's three levels. Each level includes the lines of the levels below it. */
export type Level = 0 | 1 | 2;

export interface LevelEntry extends LinePlace {
  readonly level: Level;
}

/** Which lines players of each level should know. A line that is not listed is in no level. */
export interface Levels {
  readonly names: readonly [string, string, string];
  readonly lines: readonly LevelEntry[];
}

/**
 * Everything that a revision can change. No list has two entries for one place. Entries for a
 * pattern that the chart does not teach are kept but have no effect.
 */
export interface ChartState {
  readonly condition: Condition;
  readonly patterns: readonly PatternId[];
  readonly measured: readonly MeasuredLine[];
  readonly priorities: readonly PriorityEntry[];
  readonly remarks: readonly Remark[];
  readonly levels: Levels | null;
}

/** One saved state of a chart: what changed, when and why. */
export interface Revision extends ChartState {
  /** The revision's number; it counts up from 1 within the document. */
  readonly number: number;
  /** The date of the revision, as an ISO 8601 calendar date. */
  readonly date: string;
  readonly author: string;
  readonly why: string;
}

/**
 * `computed`: lines are solved, and a measured number replaces the solved one.
 * `measured`: the chart has only its measured lines, and only numbers missing from these are
 * solved.
 */
export const BASES = ['computed', 'measured'] as const;
export type Basis = (typeof BASES)[number];

export interface ChartDocument {
  readonly kind: 'throughline-chart';
  readonly version: 2;
  readonly id: string;
  readonly name: string;
  readonly table: TableSize;
  /** The distance from one start diamond of the chart to the next. */
  readonly startStep: Decimal;
  /** The resolution of printed numbers. */
  readonly printStep: Decimal;
  readonly basis: Basis;
  /**
   * Digests of the revisions before the first one here, oldest first. A link leaves those revisions
   * out.
   */
  readonly earlier: readonly string[];
  /** Oldest first. The chart's numbers are those of the last revision. */
  readonly revisions: readonly [Revision, ...Revision[]];
}

export function lastRevision({ revisions }: Pick<ChartDocument, 'revisions'>): Revision {
  return revisions[revisions.length - 1] ?? revisions[0];
}

/** Returns the table and the condition of the chart's last revision. */
export function settingOf(document: ChartDocument): Setting {
  return { table: TABLES[document.table], condition: lastRevision(document).condition };
}

/** Returns a revision's state, without its number, date, author and reason. */
export function stateOf(revision: ChartState): ChartState {
  const { condition, patterns, measured, priorities, remarks, levels } = revision;
  return { condition, patterns, measured, priorities, remarks, levels };
}

/** Returns the state of an empty chart, with no pattern and no number. */
export function emptyState(condition: Condition): ChartState {
  return {
    condition,
    patterns: [],
    measured: [],
    priorities: [],
    remarks: [],
    levels: null,
  };
}

/**
 * Returns the state in its stored order: by pattern as listed, then by start. So equal charts are
 * stored as equal text. Lines without a number and empty remarks are left out.
 */
export function inOrder(state: ChartState): ChartState {
  const { levels } = state;
  return {
    condition: state.condition,
    patterns: ORDER.filter((id) => state.patterns.includes(id)),
    measured: sorted(state.measured.filter(hasNumber)),
    priorities: sorted(state.priorities),
    remarks: sorted(state.remarks.filter(({ text }) => text !== '')),
    levels: levels && { names: levels.names, lines: sorted(levels.lines) },
  };
}

const ORDER: readonly PatternId[] = PATTERNS.map(({ id }) => id);

function sorted<T extends Place>(entries: readonly T[]): readonly T[] {
  return [...entries].sort(byPlace);
}

/** Compares two places by their stored order. A whole pattern comes before its lines. */
export function byPlace(a: Place, b: Place): number {
  return ORDER.indexOf(a.pattern) - ORDER.indexOf(b.pattern) || (a.start ?? -1) - (b.start ?? -1);
}

/** Returns a text that differs for any two places of a chart. */
export function placeKey({ pattern, start }: Place): string {
  return `${pattern} ${start}`;
}

export function hasNumber(line: MeasuredLine): boolean {
  return SPEEDS.some((speed) => line[speed] !== undefined);
}

/**
 * Returns a line's own priority, or its pattern's if it has none; the whole pattern's priority if
 * `start` is null.
 */
export function priorityOf({ priorities }: ChartState, { pattern, start }: Place): Priority {
  const of = (wanted: Decimal | null) =>
    priorities.find((entry) => entry.pattern === pattern && entry.start === wanted)?.priority;
  return of(start) ?? of(null) ?? 'in turn';
}

/**
 * Returns `priorityOf` as a function for many lines: it looks each priority up instead of searching
 * for it.
 */
export function prioritiesIn({ priorities }: ChartState): (place: Place) => Priority {
  const known = new Map(priorities.map((entry) => [placeKey(entry), entry.priority]));
  return ({ pattern, start }) =>
    known.get(placeKey({ pattern, start })) ??
    known.get(placeKey({ pattern, start: null })) ??
    'in turn';
}

/** Returns the level of a line; null if it is in none. */
export function levelOf({ levels }: ChartState, { pattern, start }: LinePlace): Level | null {
  const entry = levels?.lines.find((one) => one.pattern === pattern && one.start === start);
  return entry?.level ?? null;
}

export function remarkOn({ remarks }: ChartState, { pattern, start }: LinePlace): string | null {
  return remarks.find((one) => one.pattern === pattern && one.start === start)?.text ?? null;
}
