/**
 * The oracle of memory and of fitted weights: `@open-spaced-repetition/binding` 0.5.0, the trainer of
 * the open-spaced-repetition organisation in Rust, in single precision. It shares no code with ts-fsrs.
 */

import {
  BindingMemoryState,
  computeParameters,
  FSRSBinding,
  FSRSBindingItem,
  FSRSBindingReview,
} from '@open-spaced-repetition/binding';
import { OUTCOMES, type Outcome } from '../../src/cards/index.ts';
import { clippedWeights, type Memory, type Sequence } from '../../src/scheduler/index.ts';

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

/** The oracle refuses to judge fewer answers than some number below this. */
const COPIES = 64;

/**
 * Mean log loss by the oracle, nats. Asked of copies of each answer by itself: of different ones at
 * once it weighs the later ones more.
 */
export function oracleLoss(weights: readonly number[], sequences: readonly Sequence[]): number {
  const model = new FSRSBinding([...weights]);
  const losses = itemsOf(sequences).map(
    (item) => model.evaluate(Array<FSRSBindingItem>(COPIES).fill(item)).logLoss,
  );
  return losses.reduce((sum, loss) => sum + loss, 0) / losses.length;
}

/** The weights to which the oracle fits. */
export async function oracleWeights(sequences: readonly Sequence[]): Promise<readonly number[]> {
  const fitted = await computeParameters([...itemsOf(sequences)], {
    enableShortTerm: true,
    numRelearningSteps: 1,
  });
  // A limit in single precision can lie a hair beyond the same limit in double.
  return clippedWeights(fitted);
}

/** The oracle wants each scored answer with all before it. */
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
