/**
 * One step over the normal impulse by the Runge–Kutta method of Dormand & Prince: order 5, with its
 * error estimated by an embedded method of order 4 (J. Comput. Appl. Math. 6 (1980) 19, RK5(4)7M).
 * All impacts share these buffers: one is integrated to its end before the next begins.
 */

import { rates } from './friction.ts';
import { at, type Impact, type Impulses, SIZE, WORK } from './impact.ts';

type Weights = readonly number[];

/** Butcher tableau: row n weighs the rates of the stages before stage n + 2; the last is the step. */
const TABLEAU: readonly Weights[] = [
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** The last row less the same row of the embedded method. */
const ERROR: Weights = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];

/** Where the step begins. */
export const now = new Float64Array(SIZE);
/** Where it ends. */
export const next = new Float64Array(SIZE);
/** The rates of the seven stages, one after the other. */
const k = new Float64Array(7 * SIZE);
const stages = Array.from({ length: 7 }, (_, n) => k.subarray(n * SIZE, (n + 1) * SIZE));
/** Rates at `now`; set by the caller. */
export const ratesNow = stages[0] as Impulses;
/** Rates at `next`. */
export const ratesNext = stages[6] as Impulses;

const zero = new Float64Array(SIZE);
const error = new Float64Array(SIZE);

/** Steps taken so far, for the bench. */
export const tally = { steps: 0 };

/**
 * Takes a step of length h from `now` to `next`.
 * @returns the estimated error: the largest of the impulses' (the work only follows from them)
 */
export function step(impact: Impact, h: number): number {
  tally.steps++;
  for (let n = 0; n < TABLEAU.length; n++) {
    advance(now, h, TABLEAU[n] as Weights, next);
    rates(impact, next, stages[n + 1] as Impulses);
  }
  advance(zero, h, ERROR, error);
  let largest = 0;
  for (let m = 0; m < WORK; m++) largest = Math.max(largest, Math.abs(at(error, m)));
  return largest;
}

/**
 * to = from + h · Σ weight · rate. The six sums are written out: an inner loop over them makes an
 * impact take half as long again.
 */
function advance(from: Impulses, h: number, weights: Weights, to: Impulses): void {
  let a1 = 0;
  let a2 = 0;
  let b1 = 0;
  let b2 = 0;
  let p = 0;
  let work = 0;
  for (let n = 0; n < weights.length; n++) {
    const weight = weights[n] as number;
    const first = n * SIZE;
    a1 += weight * at(k, first);
    a2 += weight * at(k, first + 1);
    b1 += weight * at(k, first + 2);
    b2 += weight * at(k, first + 3);
    p += weight * at(k, first + 4);
    work += weight * at(k, first + 5);
  }
  to[0] = at(from, 0) + h * a1;
  to[1] = at(from, 1) + h * a2;
  to[2] = at(from, 2) + h * b1;
  to[3] = at(from, 3) + h * b2;
  to[4] = at(from, 4) + h * p;
  to[5] = at(from, 5) + h * work;
}
