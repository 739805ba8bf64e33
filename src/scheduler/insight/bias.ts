/** Finds persistent bias: lines or whole patterns with numbers that are called too high or too low. */

import type { Card, LineCard } from '../../cards/index.ts';
import { type Decimal, toNumber } from '../../charts/index.ts';
import type { CardMemory, Erred } from '../log/state.ts';
import { type SignedRank, signedRank, typicalError } from './signed-rank.ts';

/** The recent errors of each card, newest last. */
export type RecentErrors = ReadonlyMap<string, Pick<CardMemory, 'recent'>>;

/** The error of an answer, in diamonds; positive if the number given was too high. */
interface SignedError {
  readonly day: number;
  readonly error: number;
}

interface Leaning {
  /** Whether the number is called too high or too low. */
  readonly side: 'high' | 'low';
  /** How much it is off, in diamonds, above 0 (Hodges & Lehmann), to a tenth of the printed step. */
  readonly size: number;
  /**
   * How many answers were tested. `leaning` is how many of them were off to this side, and `days` is on
   * how many days they were given.
   */
  readonly answers: number;
  readonly leaning: number;
  readonly days: number;
  /** The two-sided p-value of Wilcoxon's test, corrected for all the other tests (Holm 1979). */
  readonly p: number;
}

export interface LineBias extends Leaning {
  readonly of: 'line';
  readonly card: LineCard;
}

export interface PatternBias extends Leaning {
  readonly of: 'pattern';
  readonly pattern: LineCard['pattern'];
  /** How many lines the errors come from. */
  readonly lines: number;
}

export type Bias = LineBias | PatternBias;

/**
 * The largest share of unbiased players who are told of a bias: a little less than 1 in 20.
 */
const LEVEL = 0.04;
/**
 * The least number of nonzero errors to test. A line's errors are from different study days. Five
 * errors can be chance even if all are on one side (2 · ½⁵ = 0.06). Six cannot if nothing else is
 * tested.
 */
const LEAST_ERRORS = 6;
/** The least number of lines to test a pattern. With fewer, only the lines themselves show a bias. */
const LEAST_LINES = 3;
/** How old an error may be, in days. Older errors tell nothing about today. */
const OLDEST = 365;

/** Errors that are tested together: all errors of a line, or of a pattern. */
interface Family {
  readonly pattern: LineCard['pattern'];
  /** The line's card; null for a pattern. */
  readonly card: LineCard | null;
  readonly lines: number;
  readonly errors: readonly SignedError[];
}

/**
 * Returns the biases that are not due to chance, largest first. Only a card's first answer on each
 * study day counts, because before later answers the player saw the number minutes ago. The bias of a
 * line is left out if the bias of its pattern explains it.
 * @param day today; errors dated later come from a clock that was ahead and count as today's
 * @param printStep the step of the chart's printed numbers, in diamonds; biases smaller than half of
 * it are left out, because the printed number would be the same
 */
export function biasesOf(
  memories: RecentErrors,
  cards: readonly Card[],
  day: number,
  printStep: Decimal,
): readonly Bias[] {
  const lines = cards.flatMap((card): readonly Family[] => {
    if (card.kind !== 'number') return [];
    const errors = firstOfDays(memories.get(card.id)?.recent ?? [], day);
    if (errors.length === 0) return [];
    return [{ pattern: card.pattern, card, lines: 1, errors }];
  });
  const patterns = pooled(lines);
  const step = toNumber(printStep);
  const found = significant([...patterns, ...lines])
    .filter(({ family }) => family.card !== null || !isOneLines(family, lines))
    .flatMap(({ family, p }) => biasFrom(family, p, step));
  const own = found.filter((bias) => bias.of === 'pattern' || !isExplained(bias, found, lines));
  return own.sort((a, b) => b.size - a.size || a.p - b.p);
}

/** Returns the first error of each day, oldest first. A number has only one field. */
function firstOfDays(recent: readonly Erred[], today: number): readonly SignedError[] {
  const days = new Map<number, SignedError>();
  for (const { day, errors } of recent) {
    const [error] = errors;
    if (error !== undefined && day > today - OLDEST && !days.has(day))
      days.set(day, { day, error });
  }
  return [...days.values()];
}

function pooled(lines: readonly Family[]): readonly Family[] {
  const patterns = new Map<string, Family>();
  for (const { pattern, errors } of lines) {
    const known = patterns.get(pattern) ?? { pattern, card: null, lines: 0, errors: [] };
    patterns.set(pattern, {
      ...known,
      lines: known.lines + 1,
      errors: [...known.errors, ...errors],
    });
  }
  return [...patterns.values()].filter((one) => one.lines >= LEAST_LINES);
}

/**
 * Returns whether only one line causes a pattern's bias: whether the other lines have no bias without
 * the line that leans most.
 */
function isOneLines({ pattern }: Family, lines: readonly Family[]): boolean {
  const own = lines.filter((line) => line.pattern === pattern);
  const leans = own.map(({ errors }) => Math.abs(leanOf(errors)));
  const most = Math.max(...leans);
  // If several lines lean equally, each of them is left out in turn, so their order does not matter.
  return own.some((one, n) => {
    if (leans[n] !== most) return false;
    const others = own.filter((line) => line !== one).flatMap(({ errors }) => errors);
    return signedRank(others.map(({ error }) => error)).p > LEVEL;
  });
}

/** Returns the sum of the errors. Whole ten-thousandths make it independent of their order. */
function leanOf(errors: readonly SignedError[]): number {
  return errors.reduce((sum, { error }) => sum + Math.round(1e4 * error), 0);
}

interface Tested {
  readonly family: Family;
  readonly test: SignedRank;
}

/**
 * Returns the families with a lean that is not due to chance. Some tests could not succeed even if all
 * their errors were on one side. Tarone (1990) leaves these out without looking at the sides, so that
 * they do not weaken the other tests. For those, Holm (1979) keeps the chance of even one false alarm
 * below the level.
 */
function significant(
  families: readonly Family[],
): readonly { readonly family: Family; readonly p: number }[] {
  const tested: readonly Tested[] = families
    .map((family) => ({ family, test: signedRank(family.errors.map(({ error }) => error)) }))
    .filter(({ test }) => test.count >= LEAST_ERRORS);
  const able = [...testable(tested)].sort((a, b) => a.test.p - b.test.p);
  let worst = 0;
  return able.flatMap(({ family, test }, n) => {
    worst = Math.max(worst, Math.min(1, (able.length - n) * test.p));
    return worst <= LEVEL ? [{ family, p: worst }] : [];
  });
}

/**
 * Returns the tests that can succeed (Tarone 1990). It finds the least k for which at most k tests
 * could reach a p-value of level / k, and returns those tests.
 */
function testable(tested: readonly Tested[]): readonly Tested[] {
  for (let k = 1; k <= tested.length; k++) {
    const able = tested.filter(({ test }) => k * test.leastP <= LEVEL);
    if (able.length <= k) return able;
  }
  return tested;
}

function biasFrom(family: Family, p: number, step: number): readonly Bias[] {
  const errors = family.errors.map(({ error }) => error);
  const typical = typicalError(errors) ?? 0;
  const size = rounded(Math.abs(typical), step);
  if (size < step / 2) return [];
  const side = typical > 0 ? 'high' : 'low';
  const leaning: Leaning = {
    side,
    size,
    answers: errors.length,
    leaning: errors.filter((error) => Math.sign(error) === Math.sign(typical)).length,
    days: new Set(family.errors.map(({ day }) => day)).size,
    p,
  };
  const { card, pattern, lines } = family;
  return [card ? { of: 'line', card, ...leaning } : { of: 'pattern', pattern, lines, ...leaning }];
}

/** Rounds a size to a tenth of the printed step. Both are in diamonds. */
function rounded(size: number, step: number): number {
  return Math.round((Math.round((10 * size) / step) / 10) * step * 1e4) / 1e4;
}

/** Returns whether a line's errors no longer lean when its pattern's bias is subtracted. */
function isExplained(bias: LineBias, found: readonly Bias[], lines: readonly Family[]): boolean {
  const pattern = found.find(
    (one): one is PatternBias => one.of === 'pattern' && one.pattern === bias.card.pattern,
  );
  if (!pattern) return false;
  const off = pattern.side === 'high' ? pattern.size : -pattern.size;
  const family = lines.find(({ card }) => card === bias.card);
  const left = (family?.errors ?? []).map(({ error }) => error - off);
  return signedRank(left).p > LEVEL;
}
