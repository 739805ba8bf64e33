/** Fits weights to a player's answers, and tests on later answers whether they are better. */

import { t95 } from '../../shots/index.ts';
import { type Calibration, sumCalibration } from '../insight/calibration.ts';
import { type MemoryModel, memoryModel } from '../memory/memory.ts';
import { fitWeights, type OnProgress } from './fit.ts';
import { addFrom, before, isScored, type Sequence, scoredIn } from './training.ts';

export type PersonalWeights =
  | {
      readonly verdict: 'too little';
      /** The scored answers so far. `needed` is how many more are needed, at least. */
      readonly answers: number;
      readonly needed: number;
    }
  | {
      readonly verdict: 'better' | 'no better';
      readonly weights: readonly number[];
      /** The later answers as predicted by the weights in use. `after` uses the fitted weights. */
      readonly before: Calibration;
      readonly after: Calibration;
      /** The number of later answers, which the fit did not use. `fittedTo` is how many it used. */
      readonly answers: number;
      readonly fittedTo: number;
    };

/**
 * The least number of scored answers for a fit, which uses three quarters of them. Fits to about 300
 * answers were tried on simulated players. On new answers they helped 9 in 10 players with weights as
 * far from the published ones as learners' weights are, and 6 in 10 players with nearer weights. Fits
 * to 100 answers helped only 3 in 4 and 4 in 10, so they can do more harm than good. (There were 24
 * players in each case; `bench/weights.ts` measures this.)
 */
export const LEAST_ANSWERS = 400;

/** The share of the answers that weights are fitted to: the earliest days. */
const EARLIER = 0.75;
/**
 * How many scored answers a fit uses at most, approximately, from cards spread over the log. More would
 * cost time and gain nothing. From 7,000 answers on, simulated players gain nearly as much as their
 * true weights would give them.
 */
const MOST_FITTED = 100_000;
/** The least number of cards among the later answers. With fewer, luck would decide the test. */
const LEAST_CARDS = 10;

/**
 * Fits new weights to the earlier answers. On the later answers, compares them with the weights in use.
 * The new weights are better if their log loss is significantly lower (one-sided paired t-test, 5 %).
 * The test uses the summed loss of each card, because the answers to one card depend on each other.
 * The returned weights are the tested ones, not weights fitted to all answers.
 * @param used the weights now in use
 */
export function personalWeights(
  sequences: readonly Sequence[],
  used: MemoryModel,
  onProgress: OnProgress = () => undefined,
): PersonalWeights {
  const all = scoredIn(sequences);
  const from = firstLaterDay(sequences);
  const earlier = before(sequences, from);
  const fittedTo = scoredIn(earlier);
  const needed = Math.max(
    LEAST_ANSWERS - all,
    LEAST_ANSWERS / 2 - fittedTo,
    LEAST_CARDS - cardsFrom(sequences, from),
  );
  if (needed > 0) return { verdict: 'too little', answers: all, needed };
  const fitted = thinned(earlier, fittedTo);
  const { weights } = fitWeights(fitted, onProgress);
  const test = testOn(sequences, from, used, memoryModel(weights));
  return {
    verdict: isBetter(test.savings) ? 'better' : 'no better',
    weights,
    before: test.before,
    after: test.after,
    answers: all - fittedTo,
    fittedTo: scoredIn(fitted),
  };
}

function thinned(sequences: readonly Sequence[], count: number): readonly Sequence[] {
  const every = Math.ceil(count / MOST_FITTED);
  return sequences.filter((_, n) => n % every === 0);
}

/** Returns the study day on which the later answers begin. No day is divided. */
function firstLaterDay(sequences: readonly Sequence[]): number {
  const days = sequences.flatMap((one) => one.on.filter((_, n) => isScored(one, n)));
  days.sort((a, b) => a - b);
  return days[Math.floor(EARLIER * days.length)] ?? 0;
}

function cardsFrom(sequences: readonly Sequence[], day: number): number {
  const later = sequences.filter((one) => one.on.some((on, n) => on >= day && isScored(one, n)));
  return new Set(later.map(({ card }) => card)).size;
}

interface Test {
  readonly before: Calibration;
  readonly after: Calibration;
  /** How much the fitted weights save on the later answers of each card, in nats. */
  readonly savings: readonly number[];
}

function testOn(
  sequences: readonly Sequence[],
  from: number,
  used: MemoryModel,
  fitted: MemoryModel,
): Test {
  const [sumBefore, sumAfter] = [sumCalibration(), sumCalibration()];
  const byCard = new Map<string, number>();
  for (const one of sequences) {
    if (!one.on.some((on, n) => on >= from && isScored(one, n))) continue;
    const saved = addFrom(sumBefore, one, used, from) - addFrom(sumAfter, one, fitted, from);
    byCard.set(one.card, (byCard.get(one.card) ?? 0) + saved);
  }
  return { before: sumBefore.total(), after: sumAfter.total(), savings: [...byCard.values()] };
}

/** Returns whether the mean is significantly above 0 (Student's one-sided t-test at 5 %). */
export function isBetter(savings: readonly number[]): boolean {
  const count = savings.length;
  if (count < 2) return false;
  const mean = savings.reduce((sum, one) => sum + one, 0) / count;
  const squares = savings.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return mean > t95(count - 1) * Math.sqrt(squares / (count - 1) / count);
}
