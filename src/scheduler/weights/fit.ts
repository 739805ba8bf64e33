/** Fits the 21 weights of FSRS-6 to answers: the weights under which what happened was likeliest. */

import { type MemoryModel, memoryModel } from '../memory/memory.ts';
import { solve } from './cholesky.ts';
import { PUBLISHED_SCALED, placeOf, type Scaled, weightsAt } from './scale.ts';
import { eachPrediction, lossOf, type Sequence, scoredIn } from './training.ts';

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
 * What a weight's distance of one spread costs, in nats, as ½ · PULL. 1 is what Bayes would ask for if
 * players lay around the published weights by the spreads of `weight-scale.ts`. Chosen among ¼, 1, 4
 * and 16 by what fits were worth on fresh answers of 24 simulated players each: for players by 0.7 of
 * those spreads 4 saves as much as 1 from 100 answers on (0.010–0.016 nats; ¼ only 0.002 at 100, 16
 * a tenth less at 1600), and it costs those whose weights are the published ones less than half
 * (0.0015 instead of 0.0037 at 370 answers).
 */
export const PULL = 4;

/** The fit ends when a step saves less than this, nats in all: far below what chance moves it by. */
const ENOUGH = 0.05;
/** Most steps; some 4–8 are usual. */
const MOST_STEPS = 20;
/** Of a difference, in spreads: far above the library's rounding to 8 decimals. */
const NUDGE = 1e-3;
/** The least damping worth trying again, and how it grows after a step that does not help. */
const DAMPING = 1e-3;
const HARDER = 10;
const MOST_DAMPING = 1e7;
/** Up to so many scored answers a first fit is made from a part of the cards. */
const FIRST = 15_000;

/**
 * Least penalised log loss by Fisher scoring (Newton's step with the expected curvature, which is
 * never negative; Osborne 1992), damped as by Levenberg and Marquardt. Derivatives of each predicted
 * recall are differences of whole folds by the library itself, so that nothing here knows its
 * formulas. No chance is in it: the same answers give the same weights, and each step lowers the
 * penalised loss or is not taken, so the plain loss never ends above that of the published weights.
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
  // A large log: a few thousand answers lead nearly to the end, for a small part of the time.
  const every = Math.ceil(count / FIRST);
  const some = every > 1 ? sequences.filter((_, n) => n % every === 0) : [];
  const first =
    scoredIn(some) > 0
      ? descend(some, PUBLISHED_SCALED, pull, (done, loss) => onProgress(0.2 * done, loss))
      : PUBLISHED_SCALED;
  const from = penalised(sequences, first, pull) < startLoss * count ? first : PUBLISHED_SCALED;
  const begun = every > 1 ? 0.2 : 0;
  const place = descend(sequences, from, pull, (done, loss) =>
    onProgress(begun + (1 - begun) * done, loss),
  );
  const weights = weightsAt(place);
  const loss = lossOf(sequences, memoryModel(weights)) / count;
  onProgress(1, loss);
  return { weights, loss, startLoss };
}

function penalised(sequences: readonly Sequence[], place: Scaled, pull: number): number {
  return lossOf(sequences, memoryModel(weightsAt(place))) + penaltyOf(place, pull);
}

function penaltyOf(place: Scaled, pull: number): number {
  return (pull / 2) * place.reduce((sum, off) => sum + off * off, 0);
}

function descend(
  sequences: readonly Sequence[],
  from: Scaled,
  pull: number,
  onProgress: OnProgress,
): Scaled {
  const count = scoredIn(sequences);
  let place = from;
  let value = penalised(sequences, place, pull);
  let damping = DAMPING;
  for (let step = 0; step < MOST_STEPS; step++) {
    // How many steps it takes is not known: each is taken as a third of what is left.
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

/** Of the penalised loss: first derivatives, and the expected second ones, lower triangle. */
interface Slope {
  readonly gradient: readonly number[];
  readonly curvature: readonly (readonly number[])[];
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
    // Clipped, so that the place stands for weights that FSRS-6 allows.
    const next = placeOf(weightsAt(place.map((off, n) => off + (step[n] ?? 0))));
    const reached = penalised(sequences, next, pull);
    if (reached < value)
      return { place: next, value: reached, damping: Math.max(DAMPING, damping / HARDER) };
  }
  return null;
}

/** A weight at its limit that wants to go beyond stays where it is. */
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

function canMove(place: Scaled, n: number, way: number): boolean {
  const weights = weightsAt(place);
  const nudged = weightsAt(nudgedBy(place, n, way * NUDGE));
  return nudged[n] !== weights[n];
}

function nudgedBy(place: Scaled, n: number, by: number): Scaled {
  return place.map((off, m) => (m === n ? off + by : off));
}

/** A weight a little up, or a little down where it is at its limit. */
interface Nudged {
  readonly model: MemoryModel;
  /** By how much, in spreads; 0 if it cannot be moved. */
  readonly by: number;
}

function nudgedAt(place: Scaled, n: number): Nudged {
  const way = canMove(place, n, 1) ? NUDGE : -NUDGE;
  const weights = weightsAt(nudgedBy(place, n, way));
  return { model: memoryModel(weights), by: (placeOf(weights)[n] ?? 0) - (place[n] ?? 0) };
}

/** So many sequences between two reports of progress. */
const BATCH = 64;

function slopeAt(
  sequences: readonly Sequence[],
  place: Scaled,
  pull: number,
  onPart: (part: number) => void,
): Slope {
  const model = memoryModel(weightsAt(place));
  const nudged = place.map((_, n) => nudgedAt(place, n));
  const gradient = place.map((off) => pull * off);
  const curvature = place.map((_, r) =>
    Array.from({ length: r + 1 }, (__, c) => (r === c ? pull : 0)),
  );
  for (const [n, sequence] of sequences.entries()) {
    if (n % BATCH === 0) onPart(n / sequences.length);
    addSlope(gradient, curvature, sequence, model, nudged);
  }
  return { gradient, curvature };
}

/** A sequence's part: −ln L has the slope (p − y) p′ / p(1 − p), and p′p′ᵀ / p(1 − p) is expected. */
function addSlope(
  gradient: number[],
  curvature: number[][],
  sequence: Sequence,
  model: MemoryModel,
  nudged: readonly Nudged[],
): void {
  const { predictions, rights } = predictionsOf(sequence, model);
  if (predictions.length === 0) return;
  const slants = nudged.map(({ model: other, by }) => {
    const moved = predictionsOf(sequence, other).predictions;
    return moved.map((value, n) => (by === 0 ? 0 : (value - (predictions[n] as number)) / by));
  });
  for (const [n, predicted] of predictions.entries()) {
    const p = Math.min(1 - SURE, Math.max(SURE, predicted));
    const weight = 1 / (p * (1 - p));
    const off = (p - (rights[n] as number)) * weight;
    for (let r = 0; r < slants.length; r++) {
      const slant = (slants[r] as number[])[n] as number;
      if (slant === 0) continue;
      gradient[r] = (gradient[r] as number) + off * slant;
      const row = curvature[r] as number[];
      for (let c = 0; c <= r; c++)
        row[c] = (row[c] as number) + weight * slant * ((slants[c] as number[])[n] as number);
    }
  }
}

/** Keeps the curvature finite where recall is all but certain. */
const SURE = 1e-7;

function predictionsOf(
  sequence: Sequence,
  model: MemoryModel,
): { readonly predictions: number[]; readonly rights: number[] } {
  const predictions: number[] = [];
  const rights: number[] = [];
  eachPrediction(sequence, model, (_, predicted, right) => {
    predictions.push(predicted);
    rights.push(right ? 1 : 0);
  });
  return { predictions, rights };
}
