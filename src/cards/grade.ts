/** Grades answers by a tolerance, in exact decimals. */

import { type Decimal, minus, size } from '../charts/index.ts';

/** The outcomes of an answer, from worst to best. */
export const OUTCOMES = ['off', 'rattled', 'pocketed', 'dead center'] as const;
export type Outcome = (typeof OUTCOMES)[number];

/** How fast a player usually answers one kind of question, in milliseconds. */
export interface Pace {
  /** An answer that takes longer than this is rattled at best. */
  readonly slow: number;
  /** An answer within this time is quick; null until there are enough answers to tell. */
  readonly quick: number | null;
}

const ENOUGH_ANSWERS = 20;
/** The slow limit until there are enough answers, in milliseconds. */
const SLOW_AT_FIRST = 20_000;

/**
 * Returns a player's pace for one kind of question.
 * @param times recent answer times for that kind, in milliseconds, in any order
 */
export function paceOf(times: readonly number[]): Pace {
  if (times.length < ENOUGH_ANSWERS) return { slow: SLOW_AT_FIRST, quick: null };
  const sorted = [...times].sort((a, b) => a - b);
  return { slow: 3 * quantile(sorted, 0.5), quick: quantile(sorted, 0.25) };
}

/**
 * Returns a quantile by linear interpolation between order statistics (type 7 of Hyndman & Fan
 * 1996).
 */
function quantile(sorted: readonly number[], share: number): number {
  const position = share * (sorted.length - 1);
  const low = Math.floor(position);
  const a = sorted[low] ?? 0;
  const b = sorted[Math.min(low + 1, sorted.length - 1)] ?? a;
  return a + (b - a) * (position - low);
}

export interface Grade {
  readonly outcome: Outcome;
  /** Answer minus truth, signed, one per field. */
  readonly errors: readonly Decimal[];
  /** True if the answer was close enough to be pocketed but took longer than `pace.slow`. */
  readonly slow?: true;
}

/**
 * Grades an answer. `off`: the error is greater than the tolerance. `rattled`: it is greater than
 * 0.6 of the tolerance, or the answer was slow. `pocketed`: it is within 0.6 of the tolerance.
 * `dead center`: it is within a quarter of the tolerance and the answer was quick. Of several
 * fields, the one with the largest error counts.
 * @param ms time from when the picture was painted to the answer, in milliseconds
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

/** Returns the tolerance in use: the chosen one, but never finer than the printed step. */
export function toleranceFor(chosen: Decimal, printStep: Decimal): Decimal {
  return Math.max(chosen, printStep) as Decimal;
}
