/**
 * Memory by FSRS-6. The only file that imports ts-fsrs (which patches Date.prototype), and the only
 * one that knows its grades 1–4. States are folded with `next_state` over whole study-days; the
 * library's date interface counts days from midnight UTC and is not used.
 */

import { default_w, FSRSAlgorithm, forgetting_curve } from 'ts-fsrs';
import type { Outcome } from '../cards/index.ts';

/** S: days until recall falls to 0.9. D: difficulty, 1–10. */
export interface Memory {
  readonly stability: number;
  readonly difficulty: number;
}

/** The 21 weights of FSRS-6, as published. */
export const DEFAULT_WEIGHTS: readonly number[] = default_w;

const GRADES: Readonly<Record<Outcome, 1 | 2 | 3 | 4>> = {
  off: 1,
  rattled: 2,
  pocketed: 3,
  'dead center': 4,
};

const model = new FSRSAlgorithm({ w: DEFAULT_WEIGHTS });

/**
 * Memory after an answer.
 * @param memory null before the first answer
 * @param days whole study-days since the last answer; a clock that ran back counts as 0
 */
export function remember(memory: Memory | null, days: number, outcome: Outcome): Memory {
  return model.next_state(memory, Math.max(0, days), GRADES[outcome]);
}

/** Predicted recall after so many days, 0–1. A line's hold. */
export function recall(memory: Memory, days: number): number {
  return forgetting_curve(DEFAULT_WEIGHTS, Math.max(0, days), memory.stability);
}

/** Whole days, at least one, after which recall has fallen to the target. */
export function interval(memory: Memory, targetRecall: number): number {
  const days = memory.stability * model.calculate_interval_modifier(targetRecall);
  return Math.min(36_500, Math.max(1, Math.round(days)));
}
