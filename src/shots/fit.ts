/**
 * Estimates one quantity from many shots. Made shots give the likelihood a flat top. So the
 * estimate is the mean of the whole likelihood, and the standard error is its standard deviation.
 * Both are summed over a grid.
 */

import { disagreement, type Observation, pull } from './noise.ts';

/** A shot in which the quantity multiplied by `times` was seen. */
export interface Term {
  readonly seen: Observation;
  readonly times: number;
}

export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

/** The grid ends where the likelihood has fallen to e^−18 of its maximum. */
const FALL = 18;
const HALF_GRID = 300;
const HALVINGS = 100;

/**
 * Returns the estimate of the quantity.
 * @throws without shots, or if no shot depends on the quantity
 */
export function estimate(terms: readonly Term[], scale: number): Estimate {
  const cost = (value: number) =>
    terms.reduce((sum, { seen, times }) => sum + disagreement(seen, times * value, scale), 0);
  const best = mostLikely(terms, scale);
  const least = cost(best);
  const width = Math.max(reach(cost, best, least, 1), reach(cost, best, least, -1)) / HALF_GRID;
  let mass = 0;
  let first = 0;
  let second = 0;
  for (let n = -HALF_GRID; n <= HALF_GRID; n++) {
    const weight = Math.exp(least - cost(best + n * width));
    mass += weight;
    first += weight * n;
    second += weight * n * n;
  }
  const mean = first / mass;
  return {
    value: best + mean * width,
    standardError: Math.sqrt(second / mass - mean * mean) * width,
  };
}

/**
 * Returns the most likely value, found by bisection. The disagreement is convex, so the pull falls
 * everywhere and has one zero.
 */
export function mostLikely(terms: readonly Term[], scale: number): number {
  const informative = terms.filter(({ times }) => times !== 0);
  if (informative.length === 0) throw new Error('no shot says anything of the quantity');
  const ends = informative.flatMap(({ seen: { middle, half }, times }) => [
    (middle - half) / times,
    (middle + half) / times,
  ]);
  let low = Math.min(...ends);
  let high = Math.max(...ends);
  for (let n = 0; n < HALVINGS && low < high; n++) {
    const value = (low + high) / 2;
    const up = informative.reduce(
      (sum, { seen, times }) => sum + times * pull(seen, times * value, scale),
      0,
    );
    if (up > 0) low = value;
    else if (up < 0) high = value;
    else return value;
  }
  return (low + high) / 2;
}

function reach(cost: (value: number) => number, best: number, least: number, side: 1 | -1) {
  let far = 1e-4;
  while (cost(best + side * far) - least < FALL && far < 1e3) far *= 1.5;
  return far;
}
