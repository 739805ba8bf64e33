/**
 * Computes memory with FSRS-6. This is the only file that imports ts-fsrs (which patches
 * Date.prototype) and the only one that knows its grades 1–4. States are folded with `next_state`
 * over whole study days. The library's date interface counts days from midnight UTC and is not used.
 */

import { clipParameters, default_w, FSRSAlgorithm } from 'ts-fsrs';
import type { Outcome } from '../../cards/index.ts';
import { kernelOf, type Memory } from './kernel.ts';

export type { Memory };

/** Computes memory with one set of weights. */
export interface MemoryModel {
  readonly weights: readonly number[];
  /**
   * Returns the memory after an answer.
   * @param memory the memory before the answer; null before the first answer
   * @param days the whole study days since the last answer; a negative number, which a clock that was
   * set back can cause, counts as 0
   */
  readonly remember: (memory: Memory | null, days: number, outcome: Outcome) => Memory;
  /** Returns the predicted recall after a number of days, from 0 to 1. */
  readonly recall: (memory: Pick<Memory, 'stability'>, days: number) => number;
  /** Returns the number of days after which recall has fallen to the target, whole and at least 1. */
  readonly interval: (memory: Pick<Memory, 'stability'>, targetRecall: number) => number;
}

/** The 21 weights of FSRS-6, as published. */
export const DEFAULT_WEIGHTS: readonly number[] = default_w;

/** The FSRS grade of each outcome. */
const GRADES: Readonly<Record<Outcome, 1 | 2 | 3 | 4>> = {
  off: 1,
  rattled: 2,
  pocketed: 3,
  'dead center': 4,
};

/** The number of relearning steps: the library's default. Answers on the same day count. */
const STEPS = 1;

/** Returns the nearest weights that FSRS-6 allows. The library would silently use these anyway. */
export function clippedWeights(weights: readonly number[]): readonly number[] {
  return clipParameters([...weights], STEPS, true);
}

/** Returns whether these are 21 weights within the limits of FSRS-6. */
export function areWeights(weights: readonly number[]): boolean {
  if (weights.length !== DEFAULT_WEIGHTS.length || !weights.every(Number.isFinite)) return false;
  return clippedWeights(weights).every((one, n) => one === weights[n]);
}

/** @throws RangeError if the weights are outside the limits of FSRS-6 */
export function memoryModel(weights: readonly number[]): MemoryModel {
  if (!areWeights(weights)) throw new RangeError(`these are no weights: ${weights}`);
  const model = new FSRSAlgorithm({ w: weights });
  // Not the library's, which spends most of its time on rounding.
  const kernel = kernelOf(weights);
  return {
    weights,
    remember: (memory, days, outcome) =>
      model.next_state(memory, Math.max(days, 0), GRADES[outcome]),
    recall: ({ stability }, days) => kernel.recall(stability, Math.max(days, 0)),
    interval: ({ stability }, targetRecall) => {
      const days = stability * model.calculate_interval_modifier(targetRecall);
      return Math.min(36_500, Math.max(1, Math.round(days)));
    },
  };
}

/** The memory model with the published weights. */
export const PUBLISHED: MemoryModel = memoryModel(DEFAULT_WEIGHTS);
