/**
 * Computes the scales of plots, without the DOM. The scales show days, or fractions from 0 to 1.
 */

/** A scale that maps values from `from` to `to` onto pixels from `start` to `end`. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

/**
 * Returns the pixel of a value. A value outside the span is moved to the nearer end. If the span
 * has no length, the pixel is in the middle.
 */
export function along(span: Span, value: number): number {
  const { from, to, start, end } = span;
  const part = to > from ? (Math.min(Math.max(value, from), to) - from) / (to - from) : 0.5;
  return start + part * (end - start);
}

/** Round steps; each may be multiplied by a power of ten. */
const STEPS = [1, 2, 5];

/**
 * Returns whole numbers from 0 in equal round steps. The last is at or above the greatest value.
 * @param most the greatest number of steps
 */
export function wholeTicks(greatest: number, most: number): readonly number[] {
  let step = 1;
  for (let n = 0; step * most < greatest; n++) {
    step = (STEPS[n % STEPS.length] ?? 1) * 10 ** Math.floor(n / STEPS.length);
  }
  const count = Math.max(1, Math.ceil(greatest / step));
  return Array.from({ length: count + 1 }, (_, n) => n * step);
}

/**
 * Returns tenths up to 1. The first is at or below the least value, and at most 0.5. They are
 * counted in whole percent, so that none has a rounding error.
 */
export function tenths(least: number): readonly number[] {
  const first = Math.min(50, Math.max(0, Math.floor(least * 10) * 10));
  const step = first < 50 ? 20 : 10;
  const from = first - (first % step);
  return Array.from({ length: (100 - from) / step + 1 }, (_, n) => (from + n * step) / 100);
}

/**
 * Returns the days to write under a scale: first the wanted ones, in order of importance, then as
 * many others, a week apart, as there is room for.
 * @param room the width of a written day, in pixels
 */
export function dayTicks(span: Span, wanted: readonly number[], room: number): readonly number[] {
  const weeks: number[] = [];
  for (let day = span.from; day <= span.to; day += 7) weeks.push(day);
  const ticks: number[] = [];
  for (const day of [...wanted, ...weeks]) {
    const inside = day >= span.from && day <= span.to;
    const x = along(span, day);
    if (inside && ticks.every((other) => Math.abs(along(span, other) - x) >= room)) ticks.push(day);
  }
  return ticks.sort((a, b) => a - b);
}
