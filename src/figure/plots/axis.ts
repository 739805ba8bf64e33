/** Scales of plots over days or over parts of one, without the DOM. */

/** Maps values from `from` to `to` onto pixels from `start` to `end`. */
export interface Span {
  readonly from: number;
  readonly to: number;
  readonly start: number;
  readonly end: number;
}

/** The pixel of a value; the nearer end for one outside the span, the middle if the span has no length. */
export function along(span: Span, value: number): number {
  const { from, to, start, end } = span;
  const part = to > from ? (Math.min(Math.max(value, from), to) - from) / (to - from) : 0.5;
  return start + part * (end - start);
}

/** Round steps, each also times a power of ten. */
const STEPS = [1, 2, 5];

/**
 * Whole numbers from 0 in equal round steps, the last one at or above the greatest value.
 * @param most the most steps there may be
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
 * Tenths from at or below the least value up to 1, and from 0.5 at the latest. They are counted in
 * whole percent, so that none is off by a rounding error.
 */
export function tenths(least: number): readonly number[] {
  const first = Math.min(50, Math.max(0, Math.floor(least * 10) * 10));
  const step = first < 50 ? 20 : 10;
  const from = first - (first % step);
  return Array.from({ length: (100 - from) / step + 1 }, (_, n) => (from + n * step) / 100);
}

/**
 * The days to write under a scale: first the wanted ones, in their order of importance, then as many
 * others, a week apart, as have room.
 * @param room the width of a written day, pixels
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
