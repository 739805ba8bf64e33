/**
 * Takes one step over the normal impulse by the Runge–Kutta method of Dormand & Prince. The method
 * has order 5; an embedded method of order 4 estimates its error (J. Comput. Appl. Math. 6 (1980)
 * 19, RK5(4)7M). All impacts share these buffers: one is integrated to its end before the next
 * begins.
 */

import { rates } from './friction.ts';
import { type Impact, type Impulses, impulses, SIZE, WORK } from './impact.ts';

type Weights = readonly number[];

/**
 * Butcher tableau. Stages count from 1 and rows from 0: row n gives the weights of the stages
 * before stage n + 2. The last row gives the step itself.
 */
const TABLEAU: readonly Weights[] = [
  [1 / 5],
  [3 / 40, 9 / 40],
  [44 / 45, -56 / 15, 32 / 9],
  [19372 / 6561, -25360 / 2187, 64448 / 6561, -212 / 729],
  [9017 / 3168, -355 / 33, 46732 / 5247, 49 / 176, -5103 / 18656],
  [35 / 384, 0, 500 / 1113, 125 / 192, -2187 / 6784, 11 / 84],
];
/** The weights of the last row minus those of the embedded method. */
const ERROR: Weights = [71 / 57600, 0, -71 / 16695, 71 / 1920, -17253 / 339200, 22 / 525, -1 / 40];

/** The state at the start of the step. */
export const now = impulses();
/** The state at the end of the step. */
export const next = impulses();
/** The rates of the seven stages, one after the other. */
const k = new Float64Array(7 * SIZE);
const stages = Array.from({ length: 7 }, (_, n) => k.subarray(n * SIZE, (n + 1) * SIZE));
/** Rates at `now`; set by the caller. */
export const ratesNow = stages[0] as Impulses;
/** Rates at `next`. */
export const ratesNext = stages[6] as Impulses;

const zero = impulses();
const error = impulses();

/** Counts the steps taken so far, for the benchmark. */
export const tally = { steps: 0 };

/**
 * Takes a step of length h from `now` to `next`.
 * @returns the largest estimated error of an impulse. The work is left out, because it only follows
 *   from the impulses.
 */
export function step(impact: Impact, h: number): number {
  tally.steps++;
  for (let n = 0; n < TABLEAU.length; n++) {
    advance(now, h, TABLEAU[n] as Weights, next);
    rates(impact, next, stages[n + 1] as Impulses);
  }
  advance(zero, h, ERROR, error);
  let largest = 0;
  for (let m = 0; m < WORK; m++) largest = Math.max(largest, Math.abs(error[m] as number));
  return largest;
}

/**
 * Sets to = from + h · Σ weight · rate. The six sums are written out, because an inner loop over
 * them would make an impact take half as long again.
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
    a1 += weight * (k[first] as number);
    a2 += weight * (k[first + 1] as number);
    b1 += weight * (k[first + 2] as number);
    b2 += weight * (k[first + 3] as number);
    p += weight * (k[first + 4] as number);
    work += weight * (k[first + 5] as number);
  }
  to[0] = from[0] + h * a1;
  to[1] = from[1] + h * a2;
  to[2] = from[2] + h * b1;
  to[3] = from[3] + h * b2;
  to[4] = from[4] + h * p;
  to[5] = from[5] + h * work;
}
