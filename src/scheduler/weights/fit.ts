/**
 * Fits the 21 weights of FSRS-6 to answers: the weights under which the outcomes were likeliest.
 */

import { memoryModel } from '../memory/memory.ts';
import { solve } from './cholesky.ts';
import { PUBLISHED_SCALED, placeOf, type Scaled, weightsAt } from './scale.ts';
import { canMove, type Slope, slopeAt } from './slope.ts';
import { lossOf, type Sequence, scoredIn } from './training.ts';

export interface Fitted {
  readonly weights: readonly number[];
  /** Mean log loss of the answers fitted to, nats; null if none is scored. */
  readonly loss: number | null;
  /** The same by the published weights, where the fit begins. */
  readonly startLoss: number | null;
}

/** @param done part of the work, 0–1. @param loss mean log loss so far, nats */
export type OnProgress = (done: number, loss: number) => void;

/**
 * What a weight's distance of one spread costs, in nats, as ½ · PULL. 1 is what Bayes asks for if
 * players lie around the published weights by the spreads of `scale.ts`. Chosen among ¼, 1, 4 and
 * 16 by how much fits saved on fresh answers of 24 simulated players each. For players who lie 0.7
 * of those spreads away, 4 saves as much as 1 from 100 answers on (0.010–0.016 nats; ¼ only 0.002
 * at 100, 16 a tenth less at 1600). To players whose weights are the published ones it costs less
 * than half (0.0015 instead of 0.0037 at 370 answers).
 */
export const PULL = 4;

/** The fit ends when a step saves less than this, nats in all: far below the effect of chance. */
const ENOUGH = 0.05;
/** Most steps; 4–8 are usual. */
const MOST_STEPS = 20;
/** The least damping worth trying again, and its growth after a step that does not help. */
const DAMPING = 1e-3;
const HARDER = 10;
const MOST_DAMPING = 1e7;
/** With more scored answers, a first fit uses a part of the cards. */
const FIRST = 15_000;

/**
 * Least penalized log loss by Fisher scoring (Newton's step with the expected curvature, which is
 * never negative; Osborne 1992), damped as by Levenberg and Marquardt. The library itself gives the
 * derivatives of each predicted recall, by differences of whole folds, so nothing here knows its
 * formulas. There is no randomness: the same answers give the same weights. A step that does not
 * lower the penalized loss is not taken, so the plain loss never exceeds that of the published
 * weights.
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

/** In a large log a few thousand answers lead nearly to the end, in a small part of the time. */
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
    // The number of steps is unknown: each counts as a third of the remaining work.
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

/** Tries shorter and shorter steps; null if none lowers the loss. */
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
    // Clipped to weights that FSRS-6 allows.
    const next = placeOf(weightsAt(place.map((off, n) => off + (step[n] ?? 0))));
    const reached = penalized(sequences, next, pull);
    if (reached < value)
      return { place: next, value: reached, damping: Math.max(DAMPING, damping / HARDER) };
  }
  return null;
}

/** A weight at its limit stays there if its slope leads beyond. */
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
