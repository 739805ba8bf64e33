/** Grading by a tolerance, in exact decimals. */

import { type Decimal, minus, size } from '../charts/index.ts';

/** From worst to best. */
export const OUTCOMES = ['off', 'rattled', 'pocketed', 'dead center'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** A player's own times for one kind of question, milliseconds. */
export interface Pace {
  /** An answer that takes longer is rattled at best. */
  readonly slow: number;
  /** An answer within this time is quick; null until there are enough answers. */
  readonly quick: number | null;
}

const ENOUGH_ANSWERS = 20;
/** Milliseconds, until there are enough answers. */
const SLOW_AT_FIRST = 20_000;

/** @param times recent answer times for the kind, milliseconds, in any order */
export function paceOf(times: readonly number[]): Pace {
  if (times.length < ENOUGH_ANSWERS) return { slow: SLOW_AT_FIRST, quick: null };
  const sorted = [...times].sort((a, b) => a - b);
  return { slow: 3 * quantile(sorted, 0.5), quick: quantile(sorted, 0.25) };
}

/** Linear interpolation between order statistics (type 7 of Hyndman & Fan 1996). */
function quantile(sorted: readonly number[], share: number): number {
  const position = share * (sorted.length - 1);
  const low = Math.floor(position);
  const a = sorted[low] ?? 0;
  const b = sorted[Math.min(low + 1, sorted.length - 1)] ?? a;
  return a + (b - a) * (position - low);
}

export interface Grade {
  readonly outcome: Outcome;
  /** Answer − truth, signed, one per field. */
  readonly errors: readonly Decimal[];
  /** Close enough to be pocketed, but slower than `pace.slow`. */
  readonly slow?: true;
}

/**
 * off: beyond the tolerance. rattled: beyond 0.6 of it, or slow. pocketed: within 0.6 of it. dead
 * center: within a quarter of it, and quick. The worst of several fields counts.
 * @param ms time from the painted picture to the answer
 */
export function gradeAnswer(
  answer: readonly Decimal[],
  truth: readonly Decimal[],
  tolerance: Decimal,
  ms: number,
  pace: Pace,
): Grade {
  if (answer.length !== truth.length) {
    throw new Error(`${truth.length} numbers were asked, ${answer.length} given`);
  }
  const errors = truth.map((value, index) => minus(answer[index] as Decimal, value));
  const worst = Math.max(...errors.map(size)) as Decimal;
  const outcome = outcomeOf(worst, tolerance, ms, pace);
  const slow = outcome === 'rattled' && 5 * worst <= 3 * tolerance;
  return { outcome, errors, ...(slow ? { slow } : {}) };
}

function outcomeOf(error: Decimal, tolerance: Decimal, ms: number, pace: Pace): Outcome {
  if (error > tolerance) return 'off';
  if (5 * error > 3 * tolerance || ms > pace.slow) return 'rattled';
  if (4 * error <= tolerance && pace.quick !== null && ms <= pace.quick) return 'dead center';
  return 'pocketed';
}

/** The tolerance in force: the chosen one, but never finer than the printed step. */
export function toleranceFor(chosen: Decimal, printStep: Decimal): Decimal {
  return Math.max(chosen, printStep) as Decimal;
}
