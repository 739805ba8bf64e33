/**
 * Anchors: the few lines of a pattern that are memorised; the others are worked out between them.
 * Starts and numbers are in diamonds, errors too: the rule's value minus the solved number, to the
 * nearest billionth.
 */

import { SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { Line, LineNumber } from './chart.ts';
import { type AnchorNumber, proportional, requireAscending } from './proportion.ts';

/** A start with its number at each speed: the same speeds, in the same order, in every entry. */
export interface AnchorEntry {
  readonly start: Decimal;
  readonly numbers: readonly LineNumber[];
}

/** An entry that need not be memorised. */
export interface Spared {
  /** Position in the list of entries. */
  readonly index: number;
  readonly start: Decimal;
  /** Rule minus solved, at the speed where it is largest; among equals, the first speed. */
  readonly error: number;
}

/** Two neighbouring anchors, as positions in the list of entries, and what lies between them. */
export interface AnchorSpan {
  readonly from: number;
  readonly to: number;
  readonly spared: readonly Spared[];
}

export interface AnchorPlan {
  /** Positions of the anchors in the list of entries, ascending. */
  readonly chosen: readonly number[];
  readonly spans: readonly AnchorSpan[];
  /** Size of the largest error of a spared entry; 0 if none is spared. */
  readonly worst: number;
}

/** How far a worked-out number may lie from the solved one: 0.6 of the tolerance, at least 0.05. */
export function anchorBound(tolerance: Decimal): number {
  // Divided before it leaves the decimals, where tolerances are thousandths and the fifth is whole.
  return Math.max(0.05, toNumber(((3 * tolerance) / 5) as Decimal));
}

/**
 * Entries that are planned together at most: a long rail has as many of the finest step, 0.05. The
 * work grows with the cube of it; a pattern of more, which no chart has that was made for players, is
 * planned in parts.
 */
export const MOST_TOGETHER = 161;
const PART = 40;

/**
 * The fewest entries, first and last among them, between which the proportional rule on printed
 * numbers stays within `bound` of every solved number. Among equally few the smallest worst error,
 * then the earliest starts. Neighbours have nothing between them, so there is always a plan. An
 * anchor's own rounding is not held to the bound: it is memorised as printed. Of more than
 * `MOST_TOGETHER` entries every fortieth is an anchor, and all of this is true between two of these.
 * @throws if the starts do not ascend, the speeds differ in count, or the bound is below 0
 */
export function chooseAnchors(entries: readonly AnchorEntry[], bound: number): AnchorPlan {
  check(entries, bound);
  const chosen = entries.length === 0 ? [] : [0];
  const step = entries.length > MOST_TOGETHER ? PART : MOST_TOGETHER;
  for (let from = 0; from < entries.length - 1; from += step) {
    const part = fewestOf(entries.slice(from, from + step + 1), bound);
    chosen.push(...part.slice(1).map((index) => from + index));
  }
  const spans = chosen.slice(1).map((to, k) => spanOf(entries, chosen[k] ?? 0, to));
  return { chosen, spans, worst: worstOf(spans.flatMap(({ spared }) => spared)) };
}

function fewestOf(entries: readonly AnchorEntry[], bound: number): readonly number[] {
  const misses = missesOf(entries, inBillionths(bound));
  const { worst } = fewest(misses);
  // Once more with all errors up to the worst forgiven, for only then is the first way the leftmost:
  // a small error early on is worth nothing if a larger one comes later anyway.
  const forgiven = misses.map((row) =>
    row.map((miss) => (miss !== null && miss <= worst ? 0 : null)),
  );
  return fewest(forgiven).chosen;
}

/**
 * The anchors of one pattern at all three speeds; `chosen` are positions in `lines`. A start without
 * a number (a gap of the chart) is no line, so it neither becomes an anchor nor ends a span.
 * @throws if the lines are of several patterns
 */
export function anchorsOf(lines: readonly Line[], bound: number): AnchorPlan {
  const stray = lines.find((line) => line.pattern !== lines[0]?.pattern);
  if (stray) throw new Error(`a line of ${stray.pattern} among those of ${lines[0]?.pattern}`);
  const entries = lines.map(({ start, numbers }) => ({
    start,
    numbers: SPEEDS.map((speed) => numbers[speed]),
  }));
  return chooseAnchors(entries, bound);
}

/** The anchors of a plan as memorised at one speed. */
export function anchorNumbers(
  lines: readonly Line[],
  plan: AnchorPlan,
  speed: Speed,
): readonly AnchorNumber[] {
  return plan.chosen.map((index) => {
    const line = lines[index];
    if (!line) throw new RangeError(`no line ${index} among ${lines.length}`);
    return { start: line.start, printed: line.numbers[speed].printed };
  });
}

function check(entries: readonly AnchorEntry[], bound: number): void {
  if (!(bound >= 0 && bound < Infinity)) throw new RangeError(`not a bound: ${bound}`);
  requireAscending(entries);
  const speeds = entries[0]?.numbers.length ?? 0;
  for (const { start, numbers } of entries) {
    if (numbers.length !== speeds) {
      throw new Error(`${numbers.length} numbers at ${toNumber(start)}, not ${speeds}`);
    }
  }
}

/**
 * To the nearest billionth of a diamond, as all errors are: one of 0.06 in decimals is then within
 * 0.06, and equal errors are equal, however the doubles round. No different errors become equal as
 * long as numbers are ten-thousandths and starts 0.05 apart or more: over 8 diamonds those differ by
 * 1e-4/160² = 4e-9 at least.
 */
function inBillionths(value: number): number {
  return Math.round(value * 1e9) / 1e9 + 0;
}

/** Row `from` holds the miss of a span from there to each later entry; null if it is not allowed. */
type Misses = readonly (readonly (number | null)[])[];

function missesOf(entries: readonly AnchorEntry[], most: number): Misses {
  return entries.map((_, from) =>
    entries.slice(from + 1).map((_, k) => missBetween(entries, from, from + 1 + k, most)),
  );
}

/** The largest error in a span; null as soon as one is larger than `most`. */
function missBetween(
  entries: readonly AnchorEntry[],
  from: number,
  to: number,
  most: number,
): number | null {
  const left = entries[from] as AnchorEntry;
  const right = entries[to] as AnchorEntry;
  let worst = 0;
  for (let at = from + 1; at < to; at++) {
    const error = Math.abs(errorOf(left, right, entries[at] as AnchorEntry));
    if (error > most) return null;
    if (error > worst) worst = error;
  }
  return worst;
}

interface Way {
  /** Positions from here to the end, both included. */
  readonly chosen: readonly number[];
  readonly worst: number;
}

/**
 * The best way through, by dynamic programming from the back. Keeping only the best way from each
 * entry loses nothing: a longer or worse rest never makes the whole shorter or better.
 */
function fewest(misses: Misses): Way {
  const after: Way[] = [];
  for (const [at, row] of [...misses.entries()].reverse()) {
    let best: Way | null = null;
    for (const [k, rest] of after.entries()) {
      const miss = row[k] ?? null;
      if (miss === null) continue;
      const way = { chosen: [at, ...rest.chosen], worst: Math.max(miss, rest.worst) };
      if (best === null || isBetter(way, best)) best = way;
    }
    after.unshift(best ?? { chosen: [at], worst: 0 });
  }
  return after[0] ?? { chosen: [], worst: 0 };
}

function isBetter(way: Way, other: Way): boolean {
  const more = way.chosen.length - other.chosen.length;
  return more < 0 || (more === 0 && way.worst < other.worst);
}

function spanOf(entries: readonly AnchorEntry[], from: number, to: number): AnchorSpan {
  return { from, to, spared: sparedBetween(entries, from, to) };
}

function sparedBetween(
  entries: readonly AnchorEntry[],
  from: number,
  to: number,
): readonly Spared[] {
  const left = entries[from];
  const right = entries[to];
  if (!left || !right) throw new RangeError(`no span ${from} to ${to} in ${entries.length}`);
  return entries.slice(from + 1, to).map((entry, k) => ({
    index: from + 1 + k,
    start: entry.start,
    error: errorOf(left, right, entry),
  }));
}

function errorOf(left: AnchorEntry, right: AnchorEntry, entry: AnchorEntry): number {
  let worst = 0;
  for (let speed = 0; speed < entry.numbers.length; speed++) {
    const rule = proportional(memorised(left, speed), memorised(right, speed), entry.start);
    const error = inBillionths(rule - (entry.numbers[speed] as LineNumber).exact);
    if (Math.abs(error) > Math.abs(worst)) worst = error;
  }
  return worst;
}

function memorised({ start, numbers }: AnchorEntry, speed: number): AnchorNumber {
  const number = numbers[speed];
  if (!number) throw new RangeError(`no number ${speed} at ${toNumber(start)}`);
  return { start, printed: number.printed };
}

function worstOf(spared: readonly Spared[]): number {
  return spared.reduce((worst, { error }) => Math.max(worst, Math.abs(error)), 0);
}
