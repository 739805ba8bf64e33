/**
 * The step cue of a line. It asks, after the answer, how much the pattern's number changes per
 * diamond.
 */

import {
  anchorBound,
  anchorNumbers,
  anchorsIn,
  type Chart,
  type Counting,
  cueFor,
  type Decimal,
  formatDecimal,
  type Line,
  type PatternId,
  type StepCue,
  stepCues,
} from '../../charts/index.ts';

export interface Cue {
  /** The question. The player opens its answer with a press. */
  readonly ask: string;
  readonly tell: string;
}

/** Returns the steps between a pattern's anchors, at medium speed. */
export function cuesOf(chart: Chart, pattern: PatternId, tolerance: Decimal): readonly StepCue[] {
  const bound = anchorBound(tolerance);
  const { lines, plan } = anchorsIn(chart, pattern, bound);
  return stepCues(anchorNumbers(lines, plan, 'medium'), chart.document.printStep, bound);
}

/**
 * Returns the step cue of a line.
 * @returns null for a pattern with a single line
 */
export function cueOf(chart: Chart, line: Line, tolerance: Decimal): Cue | null {
  const counting = cueFor(cuesOf(chart, line.pattern, tolerance), line.start);
  if (!counting) return null;
  const { from, to } = counting.cue;
  return {
    ask: `How much per diamond, from ${formatDecimal(from)} to ${formatDecimal(to)}?`,
    tell: `${stepWords(counting.cue)}${countWords(counting)}`,
  };
}

/** Returns, for example, "+0.2 a diamond." */
export function stepWords({ step }: StepCue): string {
  return step === 0 ? 'It stays the same.' : `${formatDecimal(step, 1, true)} a diamond.`;
}

/**
 * Returns, for example, " Count from 2.5, which is 1.7: 3.5 is 1.9, 4.0 is 2.0." For an anchor, it
 * says the anchor's number instead.
 */
function countWords({ stops: [anchor, ...rest] }: Counting): string {
  if (rest.length === 0)
    return ` ${formatDecimal(anchor.start)} is an anchor: ${numberWords(anchor)}.`;
  const counted = rest.map((stop) => `${formatDecimal(stop.start)} is ${numberWords(stop)}`);
  return ` Count from ${formatDecimal(anchor.start)}, which is ${numberWords(anchor)}: ${counted.join(', ')}.`;
}

function numberWords({ number }: { readonly number: Decimal }): string {
  return formatDecimal(number, 1);
}

/**
 * Says where a line stands among the anchors of its pattern, at medium speed. Null for a pattern
 * with a single line.
 */
export function anchorWords(chart: Chart, line: Line, tolerance: Decimal): string | null {
  const { lines, plan } = anchorsIn(chart, line.pattern, anchorBound(tolerance));
  if (lines.length < 2) return null;
  const anchors = anchorNumbers(lines, plan, 'medium');
  const is = ({ start, printed }: (typeof anchors)[number]) =>
    `${formatDecimal(start)} → ${formatDecimal(printed)}`;
  const own = anchors.findIndex((anchor) => anchor.start === line.start);
  const near = own < 0 ? anchorsAround(anchors, line.start) : [anchors[own - 1], anchors[own + 1]];
  const words = near.flatMap((anchor) => (anchor ? [is(anchor)] : [])).join(', ');
  return own < 0 ? `Between the anchors ${words}.` : `Anchor. Neighbors: ${words}.`;
}

function anchorsAround<A extends { readonly start: Decimal }>(
  anchors: readonly A[],
  start: Decimal,
) {
  const next = anchors.findIndex((anchor) => anchor.start > start);
  return [anchors[next - 1], anchors[next]];
}
