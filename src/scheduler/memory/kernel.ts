/**
 * The formulas of FSRS-6 in plain numbers, for forecasts, which need millions of states. The log is
 * folded with the library (memory.ts), which also rounds and checks; both agree to 1e-6 of a
 * stability (tests/scheduler/memory/kernel.test.ts).
 */

/** S: days until recall falls to 0.9. D: difficulty, 1–10. */
export interface Memory {
  readonly stability: number;
  readonly difficulty: number;
}

/** FSRS grades: a miss, and an answer that was right. */
export const MISS = 1;
export const RIGHT = 3;
export type Grade = typeof MISS | typeof RIGHT;

/** Bounds of a stability, days. */
const SHORTEST = 0.001;
const LONGEST = 36_500;

export interface Kernel {
  /** Predicted recall after a number of days, 0–1. */
  readonly recall: (stability: number, days: number) => number;
  /** Memory after an answer; a stability of 0 means that the card was never answered. */
  readonly after: (memory: Memory, days: number, grade: Grade) => Memory;
}

/** @param weights the 21 weights of FSRS-6 */
export function kernelOf(weights: readonly number[]): Kernel {
  const w = (n: number): number => weights[n] as number;
  const decay = -w(20);
  const factor = Math.exp(Math.log(0.9) / decay) - 1;
  const growth = Math.exp(w(8));
  const sameDay = { [MISS]: Math.exp(w(17) * (w(18) - 2)), [RIGHT]: Math.exp(w(17) * w(18)) };
  const easiest = w(4) - Math.exp(3 * w(5)) + 1;
  const first = (grade: Grade): number => w(4) - Math.exp((grade - 1) * w(5)) + 1;
  const recall = (stability: number, days: number): number =>
    power(1 + (factor * days) / stability, decay);
  const missed = ({ stability, difficulty }: Memory, days: number): number => {
    const forgotten = Math.exp((1 - recall(stability, days)) * w(14));
    const left = w(11) * power(difficulty, -w(12)) * (power(stability + 1, w(13)) - 1) * forgotten;
    return Math.min(left, stability / sameDay[RIGHT]);
  };
  const right = ({ stability, difficulty }: Memory, days: number): number => {
    const gained = Math.exp((1 - recall(stability, days)) * w(10)) - 1;
    return stability * (1 + growth * (11 - difficulty) * power(stability, -w(9)) * gained);
  };
  const again = ({ stability }: Memory, grade: Grade): number => {
    const times = power(stability, -w(19)) * sameDay[grade];
    return stability * (grade === RIGHT ? Math.max(times, 1) : times);
  };
  return {
    recall,
    after: (memory, days, grade) => {
      const { stability, difficulty } = memory;
      if (stability === 0) {
        return { stability: Math.max(w(grade - 1), 0.1), difficulty: clamp(first(grade), 1, 10) };
      }
      const later = grade === MISS ? missed : right;
      const next = days <= 0 ? again(memory, grade) : later(memory, days);
      const harder = difficulty - (w(6) * (grade - 3) * (10 - difficulty)) / 9;
      return {
        stability: clamp(next, SHORTEST, LONGEST),
        difficulty: clamp(w(7) * easiest + (1 - w(7)) * harder, 1, 10),
      };
    },
  };
}

/** A positive number to a power; more than twice as fast as the operator. */
function power(value: number, exponent: number): number {
  return Math.exp(exponent * Math.log(value));
}

function clamp(value: number, low: number, high: number): number {
  return Math.min(high, Math.max(low, value));
}
