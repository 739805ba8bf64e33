/** Integrators independent of src: a general solver (odex) and small steps. */
import { type Derivative, Solver } from 'odex';

/** An instant of an integration. */
export interface Instant {
  readonly x: number;
  readonly y: number[];
}

/** A quantity at whose zero an integration stops, and its rate from the rate of y. */
export interface Gap {
  readonly value: (y: readonly number[]) => number;
  readonly rate: (dy: readonly number[]) => number;
}

/** Change of x so small that y changes linearly. */
const NEARLY = 1e-9;
const ROUNDS = 60;

/** odex 2.0.4 (Hairer's ODEX, Gragg–Bulirsch–Stoer extrapolation), BSD-2-Clause. */
export function advance(f: Derivative, from: Instant, to: number, tolerance: number): Instant {
  // The solver does not accept a zero length.
  if (Math.abs(to - from.x) <= 1e-14 * Math.abs(to)) return { x: to, y: from.y };
  const solver = new Solver(from.y.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.maxSteps = 200_000;
  const { y, outcome } = solver.solve(f, from.x, from.y, to);
  if (outcome !== 0) throw new Error(`odex gave up between ${from.x} and ${to}`);
  return { x: to, y };
}

/**
 * Integrates from where the gap has one sign to where it is zero. Never backwards: friction that holds
 * a contact damps deviations, and backwards it would amplify them.
 */
export function advanceUntil(
  f: Derivative,
  start: Instant,
  guess: number,
  gap: Gap,
  tolerance: number,
): Instant {
  let from = start;
  const sign = Math.sign(gap.value(start.y));
  let to = guess;
  for (let round = 0; round < ROUNDS; round++) {
    const there = advance(f, from, to, tolerance);
    const value = gap.value(there.y);
    const rate = f(there.x, there.y);
    const change = -value / gap.rate(rate);
    if (Math.abs(change) < NEARLY) {
      return { x: to + change, y: there.y.map((q, n) => q + change * (rate[n] as number)) };
    }
    if (value * sign > 0) {
      from = there;
      to += Math.max(change, NEARLY);
    } else {
      to = from.x + shorter(gap, f, from, to - from.x, value);
    }
  }
  throw new Error(`no end found after ${start.x}`);
}

/** A step shorter than one that ran past the zero: Newton's, or else the chord's. */
function shorter(gap: Gap, f: Derivative, from: Instant, tooLong: number, past: number): number {
  const value = gap.value(from.y);
  const newton = -value / gap.rate(f(from.x, from.y));
  return newton > 0 && newton < 0.9 * tooLong ? newton : (tooLong * value) / (value - past);
}

/** One step of classical Runge–Kutta. */
export function rungeKutta(f: Derivative, x: number, y: number[], h: number): number[] {
  const moved = (by: number, rate: number[]) => y.map((q, n) => q + by * (rate[n] as number));
  const a = f(x, y);
  const b = f(x + h / 2, moved(h / 2, a));
  const c = f(x + h / 2, moved(h / 2, b));
  const d = f(x + h, moved(h, c));
  return y.map(
    (q, n) =>
      q +
      (h / 6) * ((a[n] as number) + 2 * (b[n] as number) + 2 * (c[n] as number) + (d[n] as number)),
  );
}
