/** Are weights fitted to a player's answers better than those in use? Tested on later answers. */

import { t95 } from '../../shots/index.ts';
import { type Calibration, sumCalibration } from '../insight/calibration.ts';
import { type MemoryModel, memoryModel } from '../memory/memory.ts';
import { fitWeights, type OnProgress } from './fit.ts';
import { addFrom, before, isScored, type Sequence, scoredIn } from './training.ts';

export type PersonalWeights =
  | {
      readonly verdict: 'too little';
      /** Scored answers so far, and how many more it takes at least. */
      readonly answers: number;
      readonly needed: number;
    }
  | {
      readonly verdict: 'better' | 'no better';
      readonly weights: readonly number[];
      /** The later answers, predicted by the weights in use and by the fitted ones. */
      readonly before: Calibration;
      readonly after: Calibration;
      /** The number of later answers, which the fit has not seen, and of those fitted to. */
      readonly answers: number;
      readonly fittedTo: number;
    };

/**
 * With fewer scored answers nothing is fitted. Of simulated players, fits to about 300 answers,
 * three quarters of these, helped on fresh answers 9 in 10 whose weights lie as far from the
 * published ones as learners' do, and 6 in 10 who lie nearer. Fits to 100 answers helped 3 in 4 and
 * 4 in 10, so they can do more harm than good (24 players each; `bench/weights.ts` measures this).
 */
export const LEAST_ANSWERS = 400;

/** Weights are fitted to this part of the answers, the first by day. */
const EARLIER = 0.75;
/**
 * A fit uses at most about so many scored answers, of cards spread over the log. More cost time and
 * gain nothing: from 7,000 on, simulated players get nearly all that their true weights give.
 */
const MOST_FITTED = 100_000;
/** With fewer cards among the later answers the test would measure a few cards' luck. */
const LEAST_CARDS = 10;

/**
 * Fits new weights to the earlier answers and compares them with the weights in use on the later ones.
 * The new ones are better if their log loss is significantly lower (one-sided paired t-test, 5 %). The
 * test uses each card's summed loss, because the answers to one card depend on each other. The weights
 * returned are the ones that were tested, not others fitted to all answers.
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

/** The study-day with which the later answers begin; no day is divided. */
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
  /** How much the fitted weights save on each card's later answers, nats. */
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

/** Is the mean above 0 beyond chance: Student's one-sided t-test at 5 %. */
export function isBetter(savings: readonly number[]): boolean {
  const count = savings.length;
  if (count < 2) return false;
  const mean = savings.reduce((sum, one) => sum + one, 0) / count;
  const squares = savings.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  return mean > t95(count - 1) * Math.sqrt(squares / (count - 1) / count);
}
