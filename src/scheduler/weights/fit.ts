/**
 * Fits the 21 weights of FSRS-6 to answers: finds the weights that make the outcomes most likely.
 */

import { memoryModel } from '../memory/memory.ts';
import { solve } from './cholesky.ts';
import { PUBLISHED_SCALED, placeOf, type Scaled, weightsAt } from './scale.ts';
import { canMove, type Slope, slopeAt } from './slope.ts';
import { lossOf, type Sequence, scoredIn } from './training.ts';

export interface Fitted {
  readonly weights: readonly number[];
  /** The mean log loss of the answers that were used, in nats; null if none is scored. */
  readonly loss: number | null;
  /** The same loss with the published weights, where the fit begins. */
  readonly startLoss: number | null;
}

/**
 * Reports the progress of a fit.
 * @param done how much of the work is done, from 0 to 1
 * @param loss the mean log loss so far, in nats
 */
export type OnProgress = (done: number, loss: number) => void;

/**
 * The strength of the pull toward the published weights. A weight that is one spread away from its
 * published value costs ½ · PULL nats. By Bayes' theorem, PULL is 1 if players' weights vary around the
 * published ones by the spreads in `scale.ts`. The value was chosen among ¼, 1, 4, and 16 by how much
 * fits saved on new answers, with 24 simulated players in each case.
 *
 * For players 0.7 spreads away, 4 saves as much as 1 from 100 answers on (0.010–0.016 nats). ¼ saves
 * only 0.002 nats at 100 answers, and 16 saves a tenth less at 1600. For players who have the published
 * weights, 4 costs less than half as much as 1 (0.0015 instead of 0.0037 nats at 370 answers).
 */
export const PULL = 4;

/** The fit ends when a step saves less than this, in nats in total: far less than chance does. */
const ENOUGH = 0.05;
/** The most steps; 4–8 are usual. */
const MOST_STEPS = 20;
/** The least damping. After a step that does not help, damping grows by the factor `HARDER`. */
const DAMPING = 1e-3;
const HARDER = 10;
const MOST_DAMPING = 1e7;
/** If there are more scored answers than this, a first fit uses only part of the cards. */
const FIRST = 15_000;

/**
 * Minimizes the penalized log loss by Fisher scoring: Newton steps with the expected curvature, which
 * is never negative (Osborne 1992). The steps are damped as in the Levenberg–Marquardt method. The
 * derivatives of each predicted recall are differences between whole folds by the library, so this
 * code does not need its formulas. Nothing is random: the same answers give the same weights. A step
 * is taken only if it lowers the penalized loss. So the plain loss is never greater than with the
 * published weights.
 */
export function fitWeights(
  sequences: readonly Sequence[],
  onProgress: OnProgress = () => undefined,
  pull = PULL,
): Fitted {
  const count = scoredIn(sequences);
  const start = weightsAt(PUBLISHED_SCALED);
  if (count === 0) return { weights: start, loss: null, startLoss: null };
  const startLoss = lossOf(sequences, memoryModel(start)) / count;
  const begun = count > FIRST ? 0.2 : 0;
  const first = roughly(sequences, count, pull, (done, loss) => onProgress(begun * done, loss));
  const from = penalized(sequences, first, pull) < startLoss * count ? first : PUBLISHED_SCALED;
  const place = descend(sequences, from, pull, (done, loss) =>
    onProgress(begun + (1 - begun) * done, loss),
  );
  const weights = weightsAt(place);
  const loss = lossOf(sequences, memoryModel(weights)) / count;
  onProgress(1, loss);
  return { weights, loss, startLoss };
}

/**
 * Fits to some of the cards in a large log. A few thousand answers lead nearly to the result in a small
 * part of the time.
 */
function roughly(
  sequences: readonly Sequence[],
  count: number,
  pull: number,
  onProgress: OnProgress,
): Scaled {
  const every = Math.ceil(count / FIRST);
  const some = every > 1 ? sequences.filter((_, n) => n % every === 0) : [];
  if (scoredIn(some) === 0) return PUBLISHED_SCALED;
  return descend(some, PUBLISHED_SCALED, pull, onProgress);
}

function penalized(sequences: readonly Sequence[], place: Scaled, pull: number): number {
  const penalty = (pull / 2) * place.reduce((sum, off) => sum + off * off, 0);
  return lossOf(sequences, memoryModel(weightsAt(place))) + penalty;
}

function descend(
  sequences: readonly Sequence[],
  from: Scaled,
  pull: number,
  onProgress: OnProgress,
): Scaled {
  const count = scoredIn(sequences);
  let place = from;
  let value = penalized(sequences, place, pull);
  let damping = DAMPING;
  for (let step = 0; step < MOST_STEPS; step++) {
    // The number of steps is unknown, so each counts as a third of the remaining work.
    const done = (part: number) => 1 - (2 / 3) ** (step + part);
    const slope = slopeAt(sequences, place, pull, (part) => onProgress(done(part), value / count));
    const next = stepDown(sequences, place, value, slope, pull, damping);
    if (!next) return place;
    const saved = value - next.value;
    ({ place, value, damping } = next);
    if (saved < ENOUGH) return place;
  }
  return place;
}

interface Next {
  readonly place: Scaled;
  readonly value: number;
  readonly damping: number;
}

/** Tries shorter and shorter steps. Returns null if none of them lowers the loss. */
function stepDown(
  sequences: readonly Sequence[],
  place: Scaled,
  value: number,
  slope: Slope,
  pull: number,
  least: number,
): Next | null {
  for (let damping = least; damping <= MOST_DAMPING; damping *= HARDER) {
    const step = dampedStep(place, slope, damping);
    if (!step) continue;
    // This clips the weights to what FSRS-6 allows.
    const next = placeOf(weightsAt(place.map((off, n) => off + (step[n] ?? 0))));
    const reached = penalized(sequences, next, pull);
    if (reached < value)
      return { place: next, value: reached, damping: Math.max(DAMPING, damping / HARDER) };
  }
  return null;
}

/** Returns a damped step. A weight at its limit stays there if its slope leads beyond the limit. */
function dampedStep(place: Scaled, slope: Slope, damping: number): readonly number[] | null {
  const { gradient, curvature } = slope;
  const held = gradient.map((slant, n) => slant !== 0 && !canMove(place, n, -Math.sign(slant)));
  const matrix = curvature.map((row, r) =>
    row.map((value, c) => {
      if (r !== c) return held[r] || held[c] ? 0 : value;
      return held[r] ? 1 : value * (1 + damping);
    }),
  );
  return solve(
    matrix,
    gradient.map((slant, n) => (held[n] ? 0 : -slant)),
  );
}
