/** Are weights fitted to a player's own answers better than those in use: tried on later answers. */

import { t95 } from '../../shots/index.ts';
import { type Calibration, sumCalibration } from '../insight/calibration.ts';
import { type MemoryModel, memoryModel } from '../memory/memory.ts';
import { fitWeights, type OnProgress } from './fit.ts';
import { addFrom, before, isScored, type Sequence, scoredIn } from './training.ts';

export type PersonalWeights =
  | {
      readonly verdict: 'too little';
      /** Scored answers there are, and how many more it takes at least. */
      readonly answers: number;
      readonly needed: number;
    }
  | {
      readonly verdict: 'better' | 'no better';
      readonly weights: readonly number[];
      /** Of the later answers: by the weights in use, and by the fitted ones. */
      readonly before: Calibration;
      readonly after: Calibration;
      /** The later answers, which the fit has not seen, and the earlier ones, to which it was made. */
      readonly answers: number;
      readonly fittedTo: number;
    };

/**
 * Scored answers below which nothing is fitted. On simulated players fits to about 300 answers, three
 * quarters of these, were of use on fresh ones to 9 in 10 whose weights lie as far from the published
 * ones as learners' do, and to 6 in 10 who lie nearer; fits to 100 to 3 in 4 and to 4 in 10, so they
 * can do more harm than good (24 players each; `bench/weights.ts` measures such).
 */
export const LEAST_ANSWERS = 400;

/** The part of the answers, the first by day, to which weights are fitted. */
const EARLIER = 0.75;
/**
 * At most about so many scored answers are fitted to, of cards evenly over the log: more would cost
 * time and gain nothing (from 7,000 on simulated players get nearly all that their true weights give).
 */
const MOST_FITTED = 100_000;
/** With fewer cards among the later answers the test would be of a few cards' luck. */
const LEAST_CARDS = 10;

/**
 * Fits to the earlier answers and compares on the later ones. Better is: less log loss in all, by a
 * one-sided paired t-test at 5 % over the cards' sums, for a card's answers hang together. The
 * weights told of are the very ones that were tried, not others fitted to all answers.
 * @param used the weights in use
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
  const tried = tryOn(sequences, from, used, memoryModel(weights));
  return {
    verdict: isBetter(tried.savings) ? 'better' : 'no better',
    weights,
    before: tried.before,
    after: tried.after,
    answers: all - fittedTo,
    fittedTo: scoredIn(fitted),
  };
}

function thinned(sequences: readonly Sequence[], count: number): readonly Sequence[] {
  const every = Math.ceil(count / MOST_FITTED);
  return sequences.filter((_, n) => n % every === 0);
}

/** The study-day with which the later answers begin; days are not divided. */
function firstLaterDay(sequences: readonly Sequence[]): number {
  const days = sequences.flatMap((one) => one.on.filter((_, n) => isScored(one, n)));
  days.sort((a, b) => a - b);
  return days[Math.floor(EARLIER * days.length)] ?? 0;
}

function cardsFrom(sequences: readonly Sequence[], day: number): number {
  const later = sequences.filter((one) => one.on.some((on, n) => on >= day && isScored(one, n)));
  return new Set(later.map(({ card }) => card)).size;
}

interface Tried {
  readonly before: Calibration;
  readonly after: Calibration;
  /** What the fitted weights save on each card's later answers, nats. */
  readonly savings: readonly number[];
}

function tryOn(
  sequences: readonly Sequence[],
  from: number,
  used: MemoryModel,
  fitted: MemoryModel,
): Tried {
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
