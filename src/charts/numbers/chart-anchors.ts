/** The anchors of a chart's patterns, planned once for each chart: what is asked and told hangs on them. */

import type { PatternId } from '../document/patterns.ts';
import { type AnchorPlan, anchorsOf } from './anchors.ts';
import type { Chart, Line } from './chart.ts';

export interface PatternAnchors {
  /** The pattern's lines, by ascending start. */
  readonly lines: readonly Line[];
  /** Its `chosen` are positions in `lines`. */
  readonly plan: AnchorPlan;
}

const known = new WeakMap<Chart, Map<string, PatternAnchors>>();

/** @param bound how far a worked-out number may lie from the solved one, diamonds (`anchorBound`) */
export function anchorsIn(chart: Chart, pattern: PatternId, bound: number): PatternAnchors {
  const planned = known.get(chart) ?? new Map<string, PatternAnchors>();
  known.set(chart, planned);
  const key = `${pattern} ${bound}`;
  const before = planned.get(key);
  if (before) return before;
  const lines = chart.lines.filter((line) => line.pattern === pattern);
  const anchors = { lines, plan: anchorsOf(lines, bound) };
  planned.set(key, anchors);
  return anchors;
}
