/**
 * Computes the derivatives of the penalized loss by each weight, as differences between whole folds.
 */

import { type MemoryModel, memoryModel } from '../memory/memory.ts';
import { placeOf, type Scaled, weightsAt } from './scale.ts';
import { eachPrediction, type Sequence } from './training.ts';

/**
 * The first derivatives of the penalized loss (`gradient`), and the lower triangle of the expected
 * second derivatives (`curvature`).
 */
export interface Slope {
  readonly gradient: readonly number[];
  readonly curvature: readonly (readonly number[])[];
}

/**
 * How far to move a weight to find a difference, in spreads. This is far more than the library's
 * rounding to 8 decimals.
 */
const NUDGE = 1e-3;

/** The number of sequences between two reports of progress. */
const BATCH = 64;

/** The least distance of a prediction from 0 and 1, which keeps the curvature finite. */
const SURE = 1e-7;

/** @param onPart receives the share of the sequences that are done, from 0 to 1 */
export function slopeAt(
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

/** Returns whether a weight can move up (1) or down (−1), which it cannot at its limit. */
export function canMove(place: Scaled, n: number, direction: number): boolean {
  const weights = weightsAt(place);
  const nudged = weightsAt(nudgedBy(place, n, direction * NUDGE));
  return nudged[n] !== weights[n];
}

function nudgedBy(place: Scaled, n: number, by: number): Scaled {
  return place.map((off, m) => (m === n ? off + by : off));
}

/** The model with one weight moved a little up, or a little down if it is at its upper limit. */
interface Nudged {
  readonly model: MemoryModel;
  /** How far the weight moved, in spreads; 0 if it cannot move. */
  readonly by: number;
}

function nudgedAt(place: Scaled, n: number): Nudged {
  const nudge = canMove(place, n, 1) ? NUDGE : -NUDGE;
  const weights = weightsAt(nudgedBy(place, n, nudge));
  return { model: memoryModel(weights), by: (placeOf(weights)[n] ?? 0) - (place[n] ?? 0) };
}

/**
 * Adds a sequence. For each prediction p with outcome y, the slope of the loss is
 * (p − y) p′ / p(1 − p). Its expected curvature is p′p′ᵀ / p(1 − p).
 */
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
