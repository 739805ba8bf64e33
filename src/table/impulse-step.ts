/**
 * One step of Dormand & Prince 1980 (order 5, with an order 4 estimate of its error) over the normal
 * impulse. The buffers are shared: an impact is integrated from beginning to end before the next.
 * The four impulses of a stage are written out one by one: a loop over them took about a tenth longer an impact.
 */

import { type Impact, rates, SIZE } from './friction.ts';

/** Where the step begins. */
export const now = new Float64Array(SIZE);
/** Where it ends. */
export const next = new Float64Array(SIZE);
/** Rates at `now`; set by the caller. */
export const k1 = new Float64Array(SIZE);
/** Rates at `next`. */
export const k7 = new Float64Array(SIZE);
const stage = new Float64Array(SIZE);
const k2 = new Float64Array(SIZE);
const k3 = new Float64Array(SIZE);
const k4 = new Float64Array(SIZE);
const k5 = new Float64Array(SIZE);
const k6 = new Float64Array(SIZE);

/** Steps taken so far: the bench counts the work of an impact by them. */
export const tally = { steps: 0 };

/** A step from `now` (rates in k1) to `next`; returns the estimated error. */
export function step(i: Impact, h: number): number {
  tally.steps++;
  const y = now as unknown as Six;
  stageOne(y, h);
  rates(i, stage, k2);
  stageTwo(y, h);
  rates(i, stage, k3);
  stageThree(y, h);
  rates(i, stage, k4);
  stageFour(y, h);
  rates(i, stage, k5);
  stageFive(y, h);
  rates(i, stage, k6);
  land(y, h);
  rates(i, next, k7);
  return errorOf(h);
}

/** Typed arrays of fixed size, read within their bounds. */
type Six = readonly [number, number, number, number, number, number];

function stageOne(y: Six, h: number): void {
  const a = k1 as unknown as Six;
  stage[0] = y[0] + h * ((1 / 5) * a[0]);
  stage[1] = y[1] + h * ((1 / 5) * a[1]);
  stage[2] = y[2] + h * ((1 / 5) * a[2]);
  stage[3] = y[3] + h * ((1 / 5) * a[3]);
  stage[5] = y[5] + h * ((1 / 5) * a[5]);
}

function stageTwo(y: Six, h: number): void {
  const a = k1 as unknown as Six;
  const b = k2 as unknown as Six;
  stage[0] = y[0] + h * ((3 / 40) * a[0] + (9 / 40) * b[0]);
  stage[1] = y[1] + h * ((3 / 40) * a[1] + (9 / 40) * b[1]);
  stage[2] = y[2] + h * ((3 / 40) * a[2] + (9 / 40) * b[2]);
  stage[3] = y[3] + h * ((3 / 40) * a[3] + (9 / 40) * b[3]);
  stage[5] = y[5] + h * ((3 / 40) * a[5] + (9 / 40) * b[5]);
}

function stageThree(y: Six, h: number): void {
  const a = k1 as unknown as Six;
  const b = k2 as unknown as Six;
  const c = k3 as unknown as Six;
  stage[0] = y[0] + h * ((44 / 45) * a[0] + (-56 / 15) * b[0] + (32 / 9) * c[0]);
  stage[1] = y[1] + h * ((44 / 45) * a[1] + (-56 / 15) * b[1] + (32 / 9) * c[1]);
  stage[2] = y[2] + h * ((44 / 45) * a[2] + (-56 / 15) * b[2] + (32 / 9) * c[2]);
  stage[3] = y[3] + h * ((44 / 45) * a[3] + (-56 / 15) * b[3] + (32 / 9) * c[3]);
  stage[5] = y[5] + h * ((44 / 45) * a[5] + (-56 / 15) * b[5] + (32 / 9) * c[5]);
}

function stageFour(y: Six, h: number): void {
  const a = k1 as unknown as Six;
  const b = k2 as unknown as Six;
  const c = k3 as unknown as Six;
  const d = k4 as unknown as Six;
  stage[0] =
    y[0] +
    h *
      ((19372 / 6561) * a[0] +
        (-25360 / 2187) * b[0] +
        (64448 / 6561) * c[0] +
        (-212 / 729) * d[0]);
  stage[1] =
    y[1] +
    h *
      ((19372 / 6561) * a[1] +
        (-25360 / 2187) * b[1] +
        (64448 / 6561) * c[1] +
        (-212 / 729) * d[1]);
  stage[2] =
    y[2] +
    h *
      ((19372 / 6561) * a[2] +
        (-25360 / 2187) * b[2] +
        (64448 / 6561) * c[2] +
        (-212 / 729) * d[2]);
  stage[3] =
    y[3] +
    h *
      ((19372 / 6561) * a[3] +
        (-25360 / 2187) * b[3] +
        (64448 / 6561) * c[3] +
        (-212 / 729) * d[3]);
  stage[5] =
    y[5] +
    h *
      ((19372 / 6561) * a[5] +
        (-25360 / 2187) * b[5] +
        (64448 / 6561) * c[5] +
        (-212 / 729) * d[5]);
}

function stageFive(y: Six, h: number): void {
  const a = k1 as unknown as Six;
  const b = k2 as unknown as Six;
  const c = k3 as unknown as Six;
  const d = k4 as unknown as Six;
  const e = k5 as unknown as Six;
  stage[0] =
    y[0] +
    h *
      ((9017 / 3168) * a[0] +
        (-355 / 33) * b[0] +
        (46732 / 5247) * c[0] +
        (49 / 176) * d[0] +
        (-5103 / 18656) * e[0]);
  stage[1] =
    y[1] +
    h *
      ((9017 / 3168) * a[1] +
        (-355 / 33) * b[1] +
        (46732 / 5247) * c[1] +
        (49 / 176) * d[1] +
        (-5103 / 18656) * e[1]);
  stage[2] =
    y[2] +
    h *
      ((9017 / 3168) * a[2] +
        (-355 / 33) * b[2] +
        (46732 / 5247) * c[2] +
        (49 / 176) * d[2] +
        (-5103 / 18656) * e[2]);
  stage[3] =
    y[3] +
    h *
      ((9017 / 3168) * a[3] +
        (-355 / 33) * b[3] +
        (46732 / 5247) * c[3] +
        (49 / 176) * d[3] +
        (-5103 / 18656) * e[3]);
  stage[5] =
    y[5] +
    h *
      ((9017 / 3168) * a[5] +
        (-355 / 33) * b[5] +
        (46732 / 5247) * c[5] +
        (49 / 176) * d[5] +
        (-5103 / 18656) * e[5]);
}

function land(y: Six, h: number): void {
  const a = k1 as unknown as Six;
  const b = k3 as unknown as Six;
  const c = k4 as unknown as Six;
  const d = k5 as unknown as Six;
  const e = k6 as unknown as Six;
  next[0] =
    y[0] +
    h *
      ((35 / 384) * a[0] +
        (500 / 1113) * b[0] +
        (125 / 192) * c[0] +
        (-2187 / 6784) * d[0] +
        (11 / 84) * e[0]);
  next[1] =
    y[1] +
    h *
      ((35 / 384) * a[1] +
        (500 / 1113) * b[1] +
        (125 / 192) * c[1] +
        (-2187 / 6784) * d[1] +
        (11 / 84) * e[1]);
  next[2] =
    y[2] +
    h *
      ((35 / 384) * a[2] +
        (500 / 1113) * b[2] +
        (125 / 192) * c[2] +
        (-2187 / 6784) * d[2] +
        (11 / 84) * e[2]);
  next[3] =
    y[3] +
    h *
      ((35 / 384) * a[3] +
        (500 / 1113) * b[3] +
        (125 / 192) * c[3] +
        (-2187 / 6784) * d[3] +
        (11 / 84) * e[3]);
  next[4] =
    y[4] +
    h *
      ((35 / 384) * a[4] +
        (500 / 1113) * b[4] +
        (125 / 192) * c[4] +
        (-2187 / 6784) * d[4] +
        (11 / 84) * e[4]);
  next[5] =
    y[5] +
    h *
      ((35 / 384) * a[5] +
        (500 / 1113) * b[5] +
        (125 / 192) * c[5] +
        (-2187 / 6784) * d[5] +
        (11 / 84) * e[5]);
}

function errorOf(h: number): number {
  const a = k1 as unknown as Six;
  const b = k3 as unknown as Six;
  const c = k4 as unknown as Six;
  const d = k5 as unknown as Six;
  const e = k6 as unknown as Six;
  const f = k7 as unknown as Six;
  const e0 =
    (71 / 57600) * a[0] +
    (-71 / 16695) * b[0] +
    (71 / 1920) * c[0] +
    (-17253 / 339200) * d[0] +
    (22 / 525) * e[0] +
    (-1 / 40) * f[0];
  const e1 =
    (71 / 57600) * a[1] +
    (-71 / 16695) * b[1] +
    (71 / 1920) * c[1] +
    (-17253 / 339200) * d[1] +
    (22 / 525) * e[1] +
    (-1 / 40) * f[1];
  const e2 =
    (71 / 57600) * a[2] +
    (-71 / 16695) * b[2] +
    (71 / 1920) * c[2] +
    (-17253 / 339200) * d[2] +
    (22 / 525) * e[2] +
    (-1 / 40) * f[2];
  const e3 =
    (71 / 57600) * a[3] +
    (-71 / 16695) * b[3] +
    (71 / 1920) * c[3] +
    (-17253 / 339200) * d[3] +
    (22 / 525) * e[3] +
    (-1 / 40) * f[3];
  const e5 =
    (71 / 57600) * a[5] +
    (-71 / 16695) * b[5] +
    (71 / 1920) * c[5] +
    (-17253 / 339200) * d[5] +
    (22 / 525) * e[5] +
    (-1 / 40) * f[5];
  return (
    Math.abs(h) * Math.max(Math.abs(e0), Math.abs(e1), Math.abs(e2), Math.abs(e3), Math.abs(e5))
  );
}
