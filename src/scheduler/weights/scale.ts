/** Coordinates in which weights are fitted: how many spreads each lies from the published one. */

import { clippedWeights, DEFAULT_WEIGHTS } from '../memory/memory.ts';

/**
 * How much each weight differs from player to player, one standard deviation, from memory of the
 * spreads over learners by which the trainer of the open-spaced-repetition organisation weighs its
 * own penalty. The first four, stabilities after a first answer, are positive and differ by factors:
 * theirs is of the logarithm, and ours (a factor of e either way is within the usual).
 */
const SPREADS: readonly number[] = [
  1, 1, 1, 1, 0.57, 0.28, 0.6, 0.12, 0.39, 0.18, 0.33, 0.3, 0.09, 0.16, 0.57, 0.25, 1.03, 0.31,
  0.32, 0.14, 0.27,
];

/** So many weights, from the first, are scaled by their logarithm. */
const BY_LOGARITHM = 4;

/** Spreads from the published weights; all 0 for the published ones. */
export type Scaled = readonly number[];

export const PUBLISHED_SCALED: Scaled = DEFAULT_WEIGHTS.map(() => 0);

/** The weights at a place; the nearest that FSRS-6 allows if there are none. */
export function weightsAt(place: Scaled): readonly number[] {
  return clippedWeights(
    DEFAULT_WEIGHTS.map((published, n) => {
      const off = (place[n] ?? 0) * (SPREADS[n] ?? 0);
      return n < BY_LOGARITHM ? published * Math.exp(off) : published + off;
    }),
  );
}

/** The place of weights: `weightsAt` of it gives them back, but for rounding. */
export function placeOf(weights: readonly number[]): Scaled {
  return DEFAULT_WEIGHTS.map((published, n) => {
    const weight = weights[n] ?? published;
    const off = n < BY_LOGARITHM ? Math.log(weight / published) : weight - published;
    return off / (SPREADS[n] ?? 1);
  });
}
