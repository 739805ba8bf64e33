/**
 * Mental counting between anchors: "+ so much per diamond" from an anchor, in the printed resolution.
 * All starts and numbers in diamonds, at one speed (the cards use medium).
 */

import {
  type Decimal,
  minus,
  plus,
  roundTo,
  size,
  toDecimal,
  toNumber,
} from '../document/decimal.ts';
import { type AnchorNumber, proportional, requireAscending } from './proportion.ts';

export interface StepCue {
  /** Starts of the two anchors. */
  readonly from: Decimal;
  readonly to: Decimal;
  /** Their printed numbers. */
  readonly fromNumber: Decimal;
  readonly toNumber: Decimal;
  /** What a diamond of start adds, rounded to the printed step; half a step rounds away from zero. */
  readonly step: Decimal;
  /** The same unrounded. */
  readonly slope: number;
  /**
   * How far counting from `from` overshoots the printed number at `to`; counting back is off as far
   * the other way. At most half a printed step per diamond between the anchors.
   */
  readonly drift: Decimal;
  /** Whether the drift exceeds the bound: then count from the nearer anchor only. */
  readonly drifts: boolean;
}

/** A start, and the number counted up to there. */
export interface CountStop {
  readonly start: Decimal;
  readonly number: Decimal;
}

export interface Counting {
  readonly cue: StepCue;
  /** The anchor counted from. */
  readonly side: 'earlier' | 'later';
  /** The anchor, each whole diamond from it, and the start. */
  readonly stops: readonly [CountStop, ...CountStop[]];
  /** The number at the start, counted with the rounded step. */
  readonly counted: Decimal;
  /** The number at the start by the proportional rule, unrounded. */
  readonly proportional: number;
}

/**
 * The cue between each anchor and the next: none for a single anchor.
 * @param printStep resolution of printed numbers
 * @param bound how far a counted number may be off, in diamonds
 * @throws if the starts do not ascend
 */
export function stepCues(
  anchors: readonly AnchorNumber[],
  printStep: Decimal,
  bound: number,
): readonly StepCue[] {
  requireAscending(anchors);
  return anchors.slice(1).map((to, k) => cueBetween(anchors[k] ?? to, to, printStep, bound));
}

function cueBetween(
  from: AnchorNumber,
  to: AnchorNumber,
  printStep: Decimal,
  bound: number,
): StepCue {
  const slope = (to.printed - from.printed) / (to.start - from.start);
  const step = roundTo(slope, printStep);
  const drift = minus(advance(from.printed, step, minus(to.start, from.start)), to.printed);
  return {
    from: from.start,
    to: to.start,
    fromNumber: from.printed,
    toNumber: to.printed,
    step,
    slope,
    drift,
    drifts: toNumber(size(drift)) > bound,
  };
}

/**
 * Counts to a start from the nearer anchor, or from the earlier one if both are equally near. Null
 * outside all cues.
 */
export function cueFor(cues: readonly StepCue[], start: Decimal): Counting | null {
  const cue = cues.find(({ from, to }) => from <= start && start <= to);
  if (!cue) return null;
  return countFrom(cue, start - cue.from <= cue.to - start ? 'earlier' : 'later', start);
}

/** @throws if the start is not between the cue's anchors */
export function countFrom(cue: StepCue, side: Counting['side'], start: Decimal): Counting {
  const { from, to, fromNumber, toNumber: farNumber } = cue;
  if (!(from <= start && start <= to)) {
    throw new RangeError(`${toNumber(start)} not in ${toNumber(from)}–${toNumber(to)}`);
  }
  const anchor: CountStop =
    side === 'earlier' ? { start: from, number: fromNumber } : { start: to, number: farNumber };
  const stops = stopsBetween(anchor, start, cue.step);
  return {
    cue,
    side,
    stops,
    counted: advance(anchor.number, cue.step, minus(start, anchor.start)),
    proportional: proportional(
      { start: from, printed: fromNumber },
      { start: to, printed: farNumber },
      start,
    ),
  };
}

function stopsBetween(anchor: CountStop, start: Decimal, step: Decimal): Counting['stops'] {
  const diamond = toDecimal(start < anchor.start ? -1 : 1);
  const stops: CountStop[] = [];
  let at = anchor.start;
  while (at !== start) {
    at = size(minus(start, at)) > size(diamond) ? plus(at, diamond) : start;
    stops.push({ start: at, number: advance(anchor.number, step, minus(at, anchor.start)) });
  }
  return [anchor, ...stops];
}

/**
 * Adds a step per diamond over a distance. Exact if both are whole hundredths, as printed steps and
 * starts are; else to the nearest ten-thousandth.
 */
function advance(number: Decimal, step: Decimal, distance: Decimal): Decimal {
  return plus(number, toDecimal(toNumber(step) * toNumber(distance)));
}
