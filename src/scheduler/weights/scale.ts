/** The coordinates of a fit: how many spreads each weight is away from its published value. */

import { clippedWeights, DEFAULT_WEIGHTS } from '../memory/memory.ts';

/**
 * How much each weight differs from player to player: one standard deviation. The values are cited from
 * memory. The trainer of the open-spaced-repetition organization weights its own penalty with these
 * spreads over learners. The first four weights, which are stabilities after a first answer, are
 * positive and differ by factors. So their spreads are for the logarithm. These four are our own
 * choice: a factor of e up or down is usual.
 */
const SPREADS: readonly number[] = [
  1, 1, 1, 1, 0.57, 0.28, 0.6, 0.12, 0.39, 0.18, 0.33, 0.3, 0.09, 0.16, 0.57, 0.25, 1.03, 0.31,
  0.32, 0.14, 0.27,
];

/** The number of weights, from the first on, that are scaled by their logarithm. */
const BY_LOGARITHM = 4;

/** Differences from the published weights, in spreads; all 0 for the published weights. */
export type Scaled = readonly number[];

export const PUBLISHED_SCALED: Scaled = DEFAULT_WEIGHTS.map(() => 0);

/** Returns the weights at a place, clipped to what FSRS-6 allows. */
export function weightsAt(place: Scaled): readonly number[] {
  return clippedWeights(
    DEFAULT_WEIGHTS.map((published, n) => {
      const off = (place[n] ?? 0) * (SPREADS[n] ?? 0);
      return n < BY_LOGARITHM ? published * Math.exp(off) : published + off;
    }),
  );
}

/** Returns the place of these weights: the inverse of `weightsAt`, except for rounding. */
export function placeOf(weights: readonly number[]): Scaled {
  return DEFAULT_WEIGHTS.map((published, n) => {
    const weight = weights[n] ?? published;
    const off = n < BY_LOGARITHM ? Math.log(weight / published) : weight - published;
    return off / (SPREADS[n] ?? 1);
  });
}
