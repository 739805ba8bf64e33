/** The anchors of a chart's patterns: the lines that players memorize. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { PatternId } from '../document/patterns.ts';
import { type AnchorPlan, chooseAnchors } from './anchor-plan.ts';
import type { Chart } from './chart.ts';
import type { Line } from './line.ts';
import type { AnchorNumber } from './proportion.ts';

export interface PatternAnchors {
  /** The pattern's lines, in order of ascending start. */
  readonly lines: readonly Line[];
  /** The plan. Its `chosen` are positions in `lines`. */
  readonly plan: AnchorPlan;
}

const cache = new WeakMap<Chart, Map<string, PatternAnchors>>();

/**
 * Returns the anchors of one of a chart's patterns. They are planned once for each chart and bound.
 * @param bound how far an interpolated number may be from the solved one, in diamonds
 *   (`anchorBound`)
 */
export function anchorsIn(chart: Chart, pattern: PatternId, bound: number): PatternAnchors {
  const planned = cache.get(chart) ?? new Map<string, PatternAnchors>();
  cache.set(chart, planned);
  const key = `${pattern} ${bound}`;
  const cached = planned.get(key);
  if (cached) return cached;
  const lines = chart.lines.filter((line) => line.pattern === pattern);
  const anchors = { lines, plan: anchorsOf(lines, bound) };
  planned.set(key, anchors);
  return anchors;
}

/**
 * Returns how far an interpolated number may be from the solved one: 0.6 of the tolerance, but at
 * least 0.05 diamond.
 */
export function anchorBound(tolerance: Decimal): number {
  // This divides a decimal: tolerances are thousandths, so a fifth of one is a whole count.
  return Math.max(0.05, toNumber(((3 * tolerance) / 5) as Decimal));
}

/**
 * Plans the anchors of one pattern for all three speeds. The plan's `chosen` are positions in
 * `lines`. A gap of the chart is no line, so it neither becomes an anchor nor ends a span.
 * @throws if the lines belong to more than one pattern
 */
export function anchorsOf(lines: readonly Line[], bound: number): AnchorPlan {
  const stray = lines.find((line) => line.pattern !== lines[0]?.pattern);
  if (stray) throw new Error(`a line of ${stray.pattern} among those of ${lines[0]?.pattern}`);
  const entries = lines.map(({ start, numbers }) => ({
    start,
    numbers: SPEEDS.map((speed) => numbers[speed]),
  }));
  return chooseAnchors(entries, bound);
}

/** Returns the anchors of a plan as the player memorizes them at one speed. */
export function anchorNumbers(
  lines: readonly Line[],
  plan: AnchorPlan,
  speed: Speed,
): readonly AnchorNumber[] {
  return plan.chosen.map((index) => {
    const line = lines[index];
    if (!line) throw new RangeError(`no line ${index} among ${lines.length}`);
    return { start: line.start, printed: line.numbers[speed].printed };
  });
}
