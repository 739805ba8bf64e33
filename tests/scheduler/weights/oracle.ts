/**
 * The oracle of memory and of fitted weights: `@open-spaced-repetition/binding` 0.1.2, the trainer
 * of the open-spaced-repetition organization in Rust, in single precision. It shares no code with
 * ts-fsrs. The registry lacks builds of its later releases for some platforms, and `npm ci` refuses
 * a lockfile without them.
 */

import {
  BindingMemoryState,
  computeParameters,
  FSRSBinding,
  FSRSBindingItem,
  FSRSBindingReview,
} from '@open-spaced-repetition/binding';
import { OUTCOMES, type Outcome } from '../../../src/cards/index.ts';
import { clippedWeights, type Memory, type Sequence } from '../../../src/scheduler/index.ts';

/** A history's states by the oracle, one after each answer. */
export function oracleStates(
  weights: readonly number[],
  answers: readonly { readonly days: number; readonly outcome: Outcome }[],
): readonly Memory[] {
  const model = new FSRSBinding([...weights]);
  const states: Memory[] = [];
  for (const { days, outcome } of answers) {
    const last = states.at(-1);
    const before = last ? new BindingMemoryState(last.stability, last.difficulty) : null;
    const next = model.nextStates(before, 0.9, last ? days : 0);
    const { memory } =
      { off: next.again, rattled: next.hard, pocketed: next.good }[
        outcome as Exclude<Outcome, 'dead center'>
      ] ?? next.easy;
    states.push({ stability: memory.stability, difficulty: memory.difficulty });
  }
  return states;
}

/**
 * Mean log loss of the scored answers, nats: the oracle's states, and the forgetting curve of
 * FSRS-6 as published by the same organization, R(t) = (1 + (0.9^(−1/w20) − 1) t/S)^(−w20).
 */
export function oracleLoss(weights: readonly number[], sequences: readonly Sequence[]): number {
  const decay = weights[20] ?? Number.NaN;
  const factor = 0.9 ** (-1 / decay) - 1;
  const losses = sequences.flatMap(({ days, outcomes }) => {
    const answers = days.map((passed, n) => ({ days: passed, outcome: outcomes[n] as Outcome }));
    const states = oracleStates(weights, answers);
    return answers.flatMap(({ days: passed, outcome }, n) => {
      const before = states[n - 1];
      if (!before || passed === 0) return [];
      const recall = (1 + (factor * passed) / before.stability) ** -decay;
      return [-Math.log(outcome === 'off' ? 1 - recall : recall)];
    });
  });
  return losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
}

/** The weights that the oracle fits. */
export async function oracleWeights(sequences: readonly Sequence[]): Promise<readonly number[]> {
  const fitted = await computeParameters([...itemsOf(sequences)], {
    enableShortTerm: true,
    numRelearningSteps: 1,
  });
  // A limit in single precision can lie slightly beyond the same limit in double precision.
  return clippedWeights(fitted);
}

/** The oracle takes each scored answer with all answers before it. */
function itemsOf(sequences: readonly Sequence[]): readonly FSRSBindingItem[] {
  return sequences.flatMap(({ days, outcomes }) => {
    const reviews = days.map(
      (passed, n) => new FSRSBindingReview(OUTCOMES.indexOf(outcomes[n] as Outcome) + 1, passed),
    );
    return days.flatMap((passed, n) =>
      n > 0 && passed > 0 ? [new FSRSBindingItem(reviews.slice(0, n + 1))] : [],
    );
  });
}
