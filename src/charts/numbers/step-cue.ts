/**
 * Mental counting between anchors: from an anchor the player adds a fixed amount per diamond, in
 * the printed resolution. All starts and numbers are in diamonds, at one speed (the cards use
 * medium).
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
  /**
   * How much one diamond of start adds, rounded to the printed step; half a step is rounded away
   * from zero.
   */
  readonly step: Decimal;
  /** The same amount, unrounded. */
  readonly slope: number;
  /**
   * How far counting from `from` overshoots the printed number at `to`. Counting back is off by the
   * same amount in the other direction. It is at most half a printed step per diamond between the
   * anchors.
   */
  readonly drift: Decimal;
  /**
   * Whether the drift exceeds the bound. If so, the player should count from the nearer anchor
   * only.
   */
  readonly drifts: boolean;
}

/** A start, and the number reached by counting to it. */
export interface CountStop {
  readonly start: Decimal;
  readonly number: Decimal;
}

export interface Counting {
  readonly cue: StepCue;
  /** The anchor from which the player counts. */
  readonly side: 'earlier' | 'later';
  /** The anchor, each whole diamond after it, and the start. */
  readonly stops: readonly [CountStop, ...CountStop[]];
  /** The number at the start, found by counting with the rounded step. */
  readonly counted: Decimal;
  /** The number at the start by the proportional rule, unrounded. */
  readonly proportional: number;
}

/**
 * Returns the cue between each anchor and the next. A single anchor has none.
 * @param printStep the resolution of printed numbers
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
 * Counts to a start from the nearer anchor, or from the earlier one if both are equally near.
 * Returns null outside all cues.
 */
export function cueFor(cues: readonly StepCue[], start: Decimal): Counting | null {
  const cue = cues.find(({ from, to }) => from <= start && start <= to);
  if (!cue) return null;
  return countFrom(cue, start - cue.from <= cue.to - start ? 'earlier' : 'later', start);
}

/**
 * Counts to a start from one of a cue's anchors.
 * @throws if the start is not between the cue's anchors
 */
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
 * Adds a step per diamond over a distance. The result is exact if both are whole hundredths, as
 * printed steps and starts are; otherwise it is rounded to a ten-thousandth.
 */
function advance(number: Decimal, step: Decimal, distance: Decimal): Decimal {
  return plus(number, toDecimal(toNumber(step) * toNumber(distance)));
}
