/**
 * Chooses anchors: the few lines of a pattern to memorize, so that the other lines follow from them
 * by proportion. Starts, numbers and errors are in diamonds. An error is the value from the
 * proportional rule minus the solved number, to the nearest billionth.
 */

import { type Decimal, toNumber } from '../document/decimal.ts';
import type { LineNumber } from './line.ts';
import { type AnchorNumber, proportional, requireAscending } from './proportion.ts';

/** A start with its number at each speed. Every entry has the same speeds in the same order. */
export interface AnchorEntry {
  readonly start: Decimal;
  readonly numbers: readonly LineNumber[];
}

/** An entry between two anchors, with a number that follows by proportion. */
export interface Derived {
  /** Position in the list of entries. */
  readonly index: number;
  readonly start: Decimal;
  /**
   * The rule's value minus the solved number, at the speed at which the error is largest. If two
   * speeds have equal errors, the first counts.
   */
  readonly error: number;
}

/**
 * Two neighboring anchors, given as positions in the list of entries, and the entries between them.
 */
export interface AnchorSpan {
  readonly from: number;
  readonly to: number;
  readonly derived: readonly Derived[];
}

export interface AnchorPlan {
  /** Positions of the anchors in the list of entries, in ascending order. */
  readonly chosen: readonly number[];
  readonly spans: readonly AnchorSpan[];
  /** The size of the largest error of a derived entry; 0 if all entries are anchors. */
  readonly worst: number;
}

/**
 * The most entries that are planned at once. A long rail at the finest step, 0.05, has this many.
 * The work grows with the cube of the number of entries. A pattern with more entries, which no
 * chart for players has, is planned in parts.
 */
const MOST_TOGETHER = 161;
const PART = 40;

/**
 * Chooses the fewest entries, always including the first and the last, between which the
 * proportional rule stays within `bound` of every solved number. The rule uses printed numbers. If
 * several choices have the fewest entries, the one with the smallest worst error wins, and then the
 * one with the earliest starts. There is always a plan, because nothing is between direct
 * neighbors. The bound does not limit the rounding of an anchor, which is memorized as printed. If
 * there are more than `MOST_TOGETHER` entries, every fortieth is an anchor, and each part between
 * these is planned separately.
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
  return { chosen, spans, worst: worstOf(spans.flatMap(({ derived }) => derived)) };
}

function fewestOf(entries: readonly AnchorEntry[], bound: number): readonly number[] {
  const misses = missesOf(entries, inBillionths(bound));
  const { worst } = fewest(misses);
  // A second pass ignores errors up to the worst one, so that the earliest starts win a tie. A
  // smaller error early on would gain nothing if a larger one follows anyway.
  const forgiven = misses.map((row) =>
    row.map((miss) => (miss !== null && miss <= worst ? 0 : null)),
  );
  return fewest(forgiven).chosen;
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
 * Rounds to the nearest billionth of a diamond, as is done with all errors. So an error of 0.06 is
 * within a bound of 0.06, and equal errors stay equal in spite of floating-point rounding.
 * Different errors stay different if numbers are ten-thousandths and starts are at least 0.05
 * apart: over 8 diamonds such errors differ by at least 1e-4/160² = 4e-9.
 */
function inBillionths(value: number): number {
  return Math.round(value * 1e9) / 1e9 + 0;
}

/**
 * Row `from` has the worst error of the spans from there to each later entry; null if it is above
 * the bound.
 */
type Misses = readonly (readonly (number | null)[])[];

function missesOf(entries: readonly AnchorEntry[], most: number): Misses {
  return entries.map((_, from) =>
    entries.slice(from + 1).map((_, k) => missBetween(entries, from, from + 1 + k, most)),
  );
}

/** Returns the largest error in a span; null if any error is larger than `most`. */
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

/** A choice of anchors from some entry to the last. */
interface Selection {
  /** Positions of the anchors, including the first and the last entry. */
  readonly chosen: readonly number[];
  readonly worst: number;
}

/**
 * Returns the best selection, found by dynamic programming from the last entry backward. It is
 * enough to keep only the best selection from each entry on, because a longer or worse rest never
 * makes the whole selection shorter or better.
 */
function fewest(misses: Misses): Selection {
  const after: Selection[] = [];
  for (const [at, row] of [...misses.entries()].reverse()) {
    let best: Selection | null = null;
    for (const [k, rest] of after.entries()) {
      const miss = row[k] ?? null;
      if (miss === null) continue;
      const next = { chosen: [at, ...rest.chosen], worst: Math.max(miss, rest.worst) };
      if (best === null || isBetter(next, best)) best = next;
    }
    after.unshift(best ?? { chosen: [at], worst: 0 });
  }
  return after[0] ?? { chosen: [], worst: 0 };
}

function isBetter(one: Selection, other: Selection): boolean {
  const more = one.chosen.length - other.chosen.length;
  return more < 0 || (more === 0 && one.worst < other.worst);
}

function spanOf(entries: readonly AnchorEntry[], from: number, to: number): AnchorSpan {
  const left = entries[from];
  const right = entries[to];
  if (!left || !right) throw new RangeError(`no span ${from} to ${to} in ${entries.length}`);
  const derived = entries.slice(from + 1, to).map((entry, k) => ({
    index: from + 1 + k,
    start: entry.start,
    error: errorOf(left, right, entry),
  }));
  return { from, to, derived };
}

function errorOf(left: AnchorEntry, right: AnchorEntry, entry: AnchorEntry): number {
  let worst = 0;
  for (let speed = 0; speed < entry.numbers.length; speed++) {
    const rule = proportional(printedAt(left, speed), printedAt(right, speed), entry.start);
    const error = inBillionths(rule - (entry.numbers[speed] as LineNumber).exact);
    if (Math.abs(error) > Math.abs(worst)) worst = error;
  }
  return worst;
}

function printedAt({ start, numbers }: AnchorEntry, speed: number): AnchorNumber {
  const number = numbers[speed];
  if (!number) throw new RangeError(`no number ${speed} at ${toNumber(start)}`);
  return { start, printed: number.printed };
}

function worstOf(derived: readonly Derived[]): number {
  return derived.reduce((worst, { error }) => Math.max(worst, Math.abs(error)), 0);
}
