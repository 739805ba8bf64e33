/**
 * A chart document: which numbers a chart has, and how they came about, revision by revision. What
 * the numbers are is worked out from it (chart.ts).
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
import { PATTERNS, type Pattern, type PatternId } from './patterns.ts';

/** Which line of a chart. */
export interface LinePlace {
  readonly pattern: PatternId;
  readonly start: Decimal;
}

/**
 * Numbers of a line as they were measured on the table, or given by hand: at one speed at least.
 * Through the sight, whatever a player's naming.
 */
export interface MeasuredLine extends LinePlace, Readonly<Partial<Record<Speed, Decimal>>> {}

/** When a line should be learned, of the three steps that a chart's maker can give it. */
export const PRIORITIES = ['first', 'in turn', 'last'] as const;
export type Priority = (typeof PRIORITIES)[number];

/** Of a whole pattern if `start` is null. */
export interface PriorityEntry {
  readonly pattern: PatternId;
  readonly start: Decimal | null;
  readonly priority: Priority;
}

/** A sentence of the chart's maker about a line, for all who read the chart. */
export interface Remark extends LinePlace {
  readonly text: string;
}

/** A step of a chart's three; each holds the lines of those before it, too. */
export type Level = 0 | 1 | 2;

export interface LevelEntry extends LinePlace {
  readonly level: Level;
}

/** Who should hold which lines. A line that is not in the list is in no level. */
export interface Levels {
  readonly names: readonly [string, string, string];
  readonly lines: readonly LevelEntry[];
}

/**
 * All that a revision may change. Each list has an entry once; entries of a pattern that the chart
 * does not teach are kept and mean nothing.
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
  /** Counts from 1 in its document, and rises. */
  readonly number: number;
  /** ISO 8601 calendar date. */
  readonly date: string;
  readonly author: string;
  readonly why: string;
}

/**
 * `computed`: lines are solved, and a measured number stands in the place of the solved one.
 * `measured`: only measured lines are lines, and nothing is solved but what a line is lacking.
 */
export const BASES = ['computed', 'measured'] as const;
export type Basis = (typeof BASES)[number];

export interface ChartDocument {
  readonly kind: 'throughline-chart';
  readonly version: 2;
  readonly id: string;
  readonly name: string;
  readonly table: TableSize;
  /** Distance between two start diamonds of the chart. */
  readonly startStep: Decimal;
  /** Resolution in which numbers are printed. */
  readonly printStep: Decimal;
  readonly basis: Basis;
  /** Digests of revisions before the first one here, oldest first: a link leaves them out. */
  readonly earlier: readonly string[];
  /** Oldest first; the numbers belong to the last. */
  readonly revisions: readonly [Revision, ...Revision[]];
}

export function lastRevision({ revisions }: Pick<ChartDocument, 'revisions'>): Revision {
  return revisions[revisions.length - 1] ?? revisions[0];
}

/** The table and condition of the chart's last revision. */
export function settingOf(document: ChartDocument): Setting {
  return { table: TABLES[document.table], condition: lastRevision(document).condition };
}

/** What of a revision is the chart's and not its history's. */
export function stateOf(revision: ChartState): ChartState {
  const { condition, patterns, measured, priorities, remarks, levels } = revision;
  return { condition, patterns, measured, priorities, remarks, levels };
}

/** A chart of nothing: no pattern, no number. */
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
 * The same state in the one order in which it is stored: patterns as they are listed, then starts;
 * so equal charts are equal text. Lines without any number, and empty remarks, are left out.
 */
export function inOrder(state: ChartState): ChartState {
  const { levels } = state;
  return {
    condition: state.condition,
    patterns: ORDER.filter((id) => state.patterns.includes(id)),
    measured: sorted(state.measured.filter((line) => SPEEDS.some((s) => line[s] !== undefined))),
    priorities: sorted(state.priorities),
    remarks: sorted(state.remarks.filter(({ text }) => text !== '')),
    levels: levels && { names: levels.names, lines: sorted(levels.lines) },
  };
}

const ORDER: readonly PatternId[] = PATTERNS.map(({ id }) => id);

function sorted<T extends { readonly pattern: PatternId; readonly start: Decimal | null }>(
  entries: readonly T[],
): readonly T[] {
  return [...entries].sort(
    (a, b) =>
      ORDER.indexOf(a.pattern) - ORDER.indexOf(b.pattern) ||
      // A whole pattern comes before its lines.
      (a.start ?? -1) - (b.start ?? -1),
  );
}

/** Text that tells a line from every other line of its chart. */
export function placeKey({ pattern, start }: Pick<PriorityEntry, 'pattern' | 'start'>): string {
  return `${pattern} ${start}`;
}

/** A line's own priority, else its pattern's; of the whole pattern if `start` is null. */
export function priorityOf(
  { priorities }: ChartState,
  { pattern, start }: Pick<PriorityEntry, 'pattern' | 'start'>,
): Priority {
  const of = (wanted: Decimal | null) =>
    priorities.find((entry) => entry.pattern === pattern && entry.start === wanted)?.priority;
  return of(start) ?? of(null) ?? 'in turn';
}

/** `priorityOf` of many lines: what is asked for each is looked up and not looked for. */
export function prioritiesIn({
  priorities,
}: ChartState): (place: Pick<PriorityEntry, 'pattern' | 'start'>) => Priority {
  const known = new Map(priorities.map((entry) => [placeKey(entry), entry.priority]));
  return ({ pattern, start }) =>
    known.get(placeKey({ pattern, start })) ??
    known.get(placeKey({ pattern, start: null })) ??
    'in turn';
}

/** Null if the line is in no level. */
export function levelOf({ levels }: ChartState, { pattern, start }: LinePlace): Level | null {
  const entry = levels?.lines.find((one) => one.pattern === pattern && one.start === start);
  return entry?.level ?? null;
}

export function remarkOn({ remarks }: ChartState, { pattern, start }: LinePlace): string | null {
  return remarks.find((one) => one.pattern === pattern && one.start === start)?.text ?? null;
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
