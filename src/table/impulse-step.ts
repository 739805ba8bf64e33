/**
 * One step of Dormand & Prince 1980 (order 5, with an order 4 estimate of its error) over the normal
 * impulse. The buffers are shared: an impact is integrated from beginning to end before the next.
 */

import { type Impact, type Impulses, rates, SIZE } from './friction.ts';

/** Where the step begins. */
export const now = new Float64Array(SIZE);
/** Where it ends. */
export const next = new Float64Array(SIZE);
const stage = new Float64Array(SIZE);
/** Rates at `now`; set by the caller. */
export const k1 = new Float64Array(SIZE);
const k2 = new Float64Array(SIZE);
const k3 = new Float64Array(SIZE);
const k4 = new Float64Array(SIZE);
const k5 = new Float64Array(SIZE);
const k6 = new Float64Array(SIZE);
/** Rates at `next`. */
export const k7 = new Float64Array(SIZE);

/** A step from `now` (rates in k1) to `next`; returns the estimated error. */
export function step(i: Impact, p: number, h: number): number {
  for (let n = 0; n < SIZE; n++) stage[n] = at(now, n) + h * (1 / 5) * at(k1, n);
  rates(i, p + h / 5, stage, k2);
  for (let n = 0; n < SIZE; n++) {
    stage[n] = at(now, n) + h * ((3 / 40) * at(k1, n) + (9 / 40) * at(k2, n));
  }
  rates(i, p + (3 * h) / 10, stage, k3);
  for (let n = 0; n < SIZE; n++) {
    stage[n] =
      at(now, n) + h * ((44 / 45) * at(k1, n) - (56 / 15) * at(k2, n) + (32 / 9) * at(k3, n));
  }
  rates(i, p + (4 * h) / 5, stage, k4);
  for (let n = 0; n < SIZE; n++) {
    stage[n] =
      at(now, n) +
      h *
        ((19372 / 6561) * at(k1, n) -
          (25360 / 2187) * at(k2, n) +
          (64448 / 6561) * at(k3, n) -
          (212 / 729) * at(k4, n));
  }
  rates(i, p + (8 * h) / 9, stage, k5);
  for (let n = 0; n < SIZE; n++) {
    stage[n] =
      at(now, n) +
      h *
        ((9017 / 3168) * at(k1, n) -
          (355 / 33) * at(k2, n) +
          (46732 / 5247) * at(k3, n) +
          (49 / 176) * at(k4, n) -
          (5103 / 18656) * at(k5, n));
  }
  rates(i, p + h, stage, k6);
  return finishStep(i, p, h);
}

function finishStep(i: Impact, p: number, h: number): number {
  for (let n = 0; n < SIZE; n++) {
    next[n] =
      at(now, n) +
      h *
        ((35 / 384) * at(k1, n) +
          (500 / 1113) * at(k3, n) +
          (125 / 192) * at(k4, n) -
          (2187 / 6784) * at(k5, n) +
          (11 / 84) * at(k6, n));
  }
  rates(i, p + h, next, k7);
  let error = 0;
  for (let n = 0; n < SIZE; n++) {
    const e =
      (71 / 57600) * at(k1, n) -
      (71 / 16695) * at(k3, n) +
      (71 / 1920) * at(k4, n) -
      (17253 / 339200) * at(k5, n) +
      (22 / 525) * at(k6, n) -
      (1 / 40) * at(k7, n);
    error = Math.max(error, Math.abs(h * e));
  }
  return error;
}

function at(y: Impulses, index: number): number {
  return y[index] as number;
}
