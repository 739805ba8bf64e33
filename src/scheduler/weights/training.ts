/** Collects the answers that weights are fitted to: for each card, from its first answer on. */

import { OUTCOMES, type Outcome } from '../../cards/index.ts';
import { type CalibrationSum, logLossOf } from '../insight/calibration.ts';
import type { Step } from '../log/fold.ts';
import type { Memory, MemoryModel } from '../memory/memory.ts';

/** The answers to one card from its first answer on, in order. All lists have the same length. */
export interface Sequence {
  readonly card: string;
  /** The study days on which the answers were given. */
  readonly on: readonly number[];
  /** The whole study days since the answer before; 0 for the first answer. */
  readonly days: readonly number[];
  readonly outcomes: readonly Outcome[];
}

/** Collects the steps of a log, in the order of the log. */
export interface Gathering {
  readonly add: (step: Step) => void;
  readonly sequences: () => readonly Sequence[];
}

interface Growing {
  readonly card: string;
  readonly on: number[];
  readonly days: number[];
  readonly outcomes: Outcome[];
}

/**
 * Returns the sequences of a log, sorted so that neither the names of the cards nor the order in which
 * different cards were asked makes a difference. A sequence begins when a card without memory is
 * asked. It ends when the player judges the card or placement proves it, because these are our own
 * rules and not part of FSRS. It also ends when the card begins again because its number moved.
 * Answers after one of our own rules are left out, because that rule, not the weights, decided the
 * memory that they began with.
 */
export function trainingOf(steps: Iterable<Step>): readonly Sequence[] {
  const gathering = gatherTraining();
  for (const step of steps) gathering.add(step);
  return gathering.sequences();
}

export function gatherTraining(): Gathering {
  const open = new Map<string, Growing>();
  const all: Growing[] = [];
  return {
    add: ({ card, day, days, before, outcome, how }) => {
      if (how !== 'asked' || before === null) open.delete(card);
      if (how !== 'asked') return;
      if (before === null) {
        const begun: Growing = { card, on: [], days: [], outcomes: [] };
        open.set(card, begun);
        all.push(begun);
      }
      const growing = open.get(card);
      if (!growing) return;
      growing.on.push(day);
      growing.days.push(growing.days.length === 0 ? 0 : Math.max(0, days));
      growing.outcomes.push(outcome);
    },
    sequences: () => [...all].sort(bySequence),
  };
}

/** Compares sequences only by their answers, so that the names of the cards make no difference. */
function bySequence(a: Sequence, b: Sequence): number {
  const first = (a.on[0] ?? 0) - (b.on[0] ?? 0) || a.on.length - b.on.length;
  if (first !== 0) return first;
  for (const [n, on] of a.on.entries()) {
    const differs = on - (b.on[n] as number) || gradeOf(a, n) - gradeOf(b, n);
    if (differs !== 0) return differs;
  }
  return 0;
}

function gradeOf({ outcomes }: Sequence, n: number): number {
  return OUTCOMES.indexOf(outcomes[n] as Outcome);
}

/**
 * Returns whether an answer shows how long memory lasts. The first answer tests no prediction. An
 * answer on the same day as the one before only updates memory, as is usual when fitting FSRS,
 * because recall is 1 by definition after zero days.
 */
export function isScored({ days }: Sequence, n: number): boolean {
  return n > 0 && (days[n] ?? 0) > 0;
}

export function scoredIn(sequences: readonly Sequence[]): number {
  let count = 0;
  for (const one of sequences)
    for (let n = 1; n < one.days.length; n++) if (isScored(one, n)) count += 1;
  return count;
}

/**
 * Visits each scored answer in a sequence, with the recall that a model predicted for it.
 * @param visit receives the index of the answer in the sequence, the prediction, and the result
 */
export function eachPrediction(
  sequence: Sequence,
  { remember, recall }: MemoryModel,
  visit: (n: number, predicted: number, right: boolean) => void,
): void {
  const { days, outcomes } = sequence;
  let memory: Memory | null = null;
  for (let n = 0; n < days.length; n++) {
    const outcome = outcomes[n] as Outcome;
    const passed = days[n] as number;
    if (memory && passed > 0) visit(n, recall(memory, passed), outcome !== 'off');
    memory = remember(memory, passed, outcome);
  }
}

/** Returns the log loss, summed over the scored answers, in nats. */
export function lossOf(sequences: readonly Sequence[], model: MemoryModel): number {
  let loss = 0;
  for (const sequence of sequences)
    eachPrediction(sequence, model, (_, predicted, right) => {
      loss += logLossOf(predicted, right);
    });
  return loss;
}

/**
 * Adds the scored answers from a study day on. Each is predicted from all the answers before it.
 * @returns their summed log loss, in nats
 */
export function addFrom(
  sum: CalibrationSum,
  sequence: Sequence,
  model: MemoryModel,
  from: number,
): number {
  let loss = 0;
  eachPrediction(sequence, model, (n, predicted, right) => {
    if ((sequence.on[n] as number) < from) return;
    sum.add(predicted, right);
    loss += logLossOf(predicted, right);
  });
  return loss;
}

/** Returns the sequences cut to the answers before a study day. */
export function before(sequences: readonly Sequence[], day: number): readonly Sequence[] {
  return sequences.flatMap((one) => {
    const count = one.on.findIndex((on) => on >= day);
    if (count < 0) return [one];
    const { card, on, days, outcomes } = one;
    if (count === 0) return [];
    return [
      {
        card,
        on: on.slice(0, count),
        days: days.slice(0, count),
        outcomes: outcomes.slice(0, count),
      },
    ];
  });
}
