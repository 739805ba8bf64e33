/** Persistent bias: a line, or a whole pattern, whose number is called too high or too low. */

import type { Card, LineCard } from '../../cards/index.ts';
import { type Decimal, toNumber } from '../../charts/index.ts';
import type { CardMemory, Erred } from '../log/state.ts';
import { type SignedRank, signedRank, typicalError } from './signed-rank.ts';

/** The recent errors of each card, newest last. */
export type RecentErrors = ReadonlyMap<string, Pick<CardMemory, 'recent'>>;

/** The signed error of an answer, diamonds: above 0 if the number given was too high. */
interface SignedError {
  readonly day: number;
  readonly error: number;
}

interface Leaning {
  /** Is the number called too high, or too low. */
  readonly side: 'high' | 'low';
  /** By how much, diamonds, above 0: Hodges & Lehmann, to a tenth of the printed step. */
  readonly size: number;
  /** How many answers were tested, how many of them were off to that side, and on how many days. */
  readonly answers: number;
  readonly leaning: number;
  readonly days: number;
  /** Two-sided, by Wilcoxon's test, enlarged for all the other tests (Holm 1979). */
  readonly p: number;
}

export interface LineBias extends Leaning {
  readonly of: 'line';
  readonly card: LineCard;
}

export interface PatternBias extends Leaning {
  readonly of: 'pattern';
  readonly pattern: LineCard['pattern'];
  /** How many lines its errors come from. */
  readonly lines: number;
}

export type Bias = LineBias | PatternBias;

/**
 * In at most this part of logs a player without any bias is shown one: a little below one in 20.
 */
const LEVEL = 0.04;
/**
 * The least number of errors other than 0; a line's are each of another study-day. Five are within
 * chance even if all are on one side (2 · ½⁵ = 0.06); six are beyond it if nothing else is tested.
 */
const LEAST_ERRORS = 6;
/** From fewer lines, errors show those lines' bias and not the pattern's. */
const LEAST_LINES = 3;
/** Older errors say nothing about today, days. */
const OLDEST = 365;

/** Errors that are tested together: those of a line, or of a pattern. */
interface Family {
  readonly pattern: LineCard['pattern'];
  /** Null for a pattern. */
  readonly card: LineCard | null;
  readonly lines: number;
  readonly errors: readonly SignedError[];
}

/**
 * Biases beyond chance, largest first. Only a card's first answer of a study-day counts: before the
 * others the player saw the number minutes ago. A line's bias is left out if its pattern's explains
 * it.
 * @param day today; errors dated later come from a clock that was ahead and count as of today
 * @param printStep of the chart, diamonds: a lean of less than half of it would print the same
 * number
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

/** Oldest first, one a day. A number has one field. */
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

/** Is a pattern's lean that of one line: do the others not lean without the one that leans most. */
function isOneLines({ pattern }: Family, lines: readonly Family[]): boolean {
  const own = lines.filter((line) => line.pattern === pattern);
  const leans = own.map(({ errors }) => Math.abs(leanOf(errors)));
  const most = Math.max(...leans);
  // If several lean equally, each is tried, so their order does not matter.
  return own.some((one, n) => {
    if (leans[n] !== most) return false;
    const others = own.filter((line) => line !== one).flatMap(({ errors }) => errors);
    return signedRank(others.map(({ error }) => error)).p > LEVEL;
  });
}

/** Sum of the errors in whole ten-thousandths, so that it does not depend on their order. */
function leanOf(errors: readonly SignedError[]): number {
  return errors.reduce((sum, { error }) => sum + Math.round(1e4 * error), 0);
}

interface Tested {
  readonly family: Family;
  readonly test: SignedRank;
}

/**
 * The families whose lean is beyond chance. Some tests could not succeed even if all their errors
 * were on one side; Tarone 1990 leaves these out without looking at the sides, so that they cost
 * the others nothing. Over the rest, Holm 1979 keeps the chance of even one false alarm below the
 * level.
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
 * Tarone's: with the least k for which at most k tests could reach a p of level / k, those tests.
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

/** To a tenth of the printed step, diamonds. */
function rounded(size: number, step: number): number {
  return Math.round((Math.round((10 * size) / step) / 10) * step * 1e4) / 1e4;
}

/** Do the line's errors no longer lean if its pattern's bias is subtracted. */
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
