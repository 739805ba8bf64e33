/**
 * One quantity from many shots. Its likelihood is taken as it is, for made shots give it a flat top:
 * the estimate is its mean, the standard error its standard deviation, by summing over a grid.
 */

import { disagreement, pull, type Seen } from './noise.ts';

/** A shot that says `times` × the quantity = what was seen. */
export interface Term {
  readonly seen: Seen;
  readonly times: number;
}

export interface Estimate {
  readonly value: number;
  readonly standardError: number;
}

/** The grid reaches out to where the likelihood has fallen to e^−18 of its most. */
const FALLEN = 18;
const HALF_GRID = 300;
const HALVINGS = 100;

/** @throws without shots, or where none says anything */
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

/** The pull falls everywhere (the disagreement is convex), so its zero is found by halving. */
export function mostLikely(terms: readonly Term[], scale: number): number {
  const telling = terms.filter(({ times }) => times !== 0);
  if (telling.length === 0) throw new Error('no shot says anything of the quantity');
  const ends = telling.flatMap(({ seen: { middle, half }, times }) => [
    (middle - half) / times,
    (middle + half) / times,
  ]);
  let low = Math.min(...ends);
  let high = Math.max(...ends);
  for (let n = 0; n < HALVINGS && low < high; n++) {
    const value = (low + high) / 2;
    const up = telling.reduce(
      (sum, { seen, times }) => sum + times * pull(seen, times * value, scale),
      0,
    );
    if (up > 0) low = value;
    else if (up < 0) high = value;
    else return value;
  }
  return (low + high) / 2;
}

function reach(cost: (value: number) => number, best: number, least: number, way: 1 | -1): number {
  let far = 1e-4;
  while (cost(best + way * far) - least < FALLEN && far < 1e3) far *= 1.5;
  return far;
}
