/**
 * Memory by FSRS-6. The only file that imports ts-fsrs (which patches Date.prototype), and the only
 * one that knows its grades 1–4. States are folded with `next_state` over whole study-days; the
 * library's date interface counts days from midnight UTC and is not used.
 */

import { clipParameters, default_w, FSRSAlgorithm, forgetting_curve } from 'ts-fsrs';
import type { Outcome } from '../../cards/index.ts';

/** S: days until recall falls to 0.9. D: difficulty, 1–10. */
export interface Memory {
  readonly stability: number;
  readonly difficulty: number;
}

/** Memory as a set of weights counts it. */
export interface MemoryModel {
  readonly weights: readonly number[];
  /**
   * Memory after an answer.
   * @param memory null before the first answer
   * @param days whole study-days since the last answer; below 0, from a clock set back, counts as 0
   */
  readonly remember: (memory: Memory | null, days: number, outcome: Outcome) => Memory;
  /** Predicted recall after a number of days, 0–1. */
  readonly recall: (memory: Pick<Memory, 'stability'>, days: number) => number;
  /** Whole days, at least one, after which recall has fallen to the target. */
  readonly interval: (memory: Pick<Memory, 'stability'>, targetRecall: number) => number;
}

/** The 21 weights of FSRS-6, as published. */
export const DEFAULT_WEIGHTS: readonly number[] = default_w;

/** The FSRS grade, 1–4, of an outcome. */
const GRADES: Readonly<Record<Outcome, 1 | 2 | 3 | 4>> = {
  off: 1,
  rattled: 2,
  pocketed: 3,
  'dead center': 4,
};

/** One relearning step, and same-day answers count: the library's default. */
const STEPS = 1;

/** The nearest weights that FSRS-6 allows; the library would silently use these. */
export function clippedWeights(weights: readonly number[]): readonly number[] {
  return clipParameters([...weights], STEPS, true);
}

/** Are these 21 weights within the limits of FSRS-6. */
export function areWeights(weights: readonly number[]): boolean {
  if (weights.length !== DEFAULT_WEIGHTS.length || !weights.every(Number.isFinite)) return false;
  return clippedWeights(weights).every((one, n) => one === weights[n]);
}

/** @throws RangeError if the weights are outside the limits of FSRS-6 */
export function memoryModel(weights: readonly number[]): MemoryModel {
  if (!areWeights(weights)) throw new RangeError(`these are no weights: ${weights}`);
  const model = new FSRSAlgorithm({ w: weights });
  return {
    weights,
    remember: (memory, days, outcome) =>
      model.next_state(memory, Math.max(days, 0), GRADES[outcome]),
    recall: ({ stability }, days) => forgetting_curve(weights, Math.max(days, 0), stability),
    interval: ({ stability }, targetRecall) => {
      const days = stability * model.calculate_interval_modifier(targetRecall);
      return Math.min(36_500, Math.max(1, Math.round(days)));
    },
  };
}

/** Counts by the published weights. */
export const PUBLISHED: MemoryModel = memoryModel(DEFAULT_WEIGHTS);
