/** The state while the log is being folded. */

import type { Kind, Outcome } from '../../cards/index.ts';
import type { Memory, MemoryModel } from '../memory/memory.ts';
import type { TableShot } from './events.ts';
import type { CardMemory, ChartUse, Flag, Folded, MetLine, MovedCard, Shift } from './state.ts';
import { copyTrials, type GrowingTrials, noTrials } from './trials.ts';

/** The parts of the state to which events are applied. `Folded` explains each part. */
export interface Fold {
  readonly model: MemoryModel;
  readonly memories: Map<string, CardMemory>;
  readonly met: Map<string, MetLine>;
  readonly times: Map<Kind, number[]>;
  readonly aside: Set<string>;
  readonly notes: Map<string, string>;
  readonly flags: Map<string, Flag>;
  readonly moved: Map<string, MovedCard>;
  readonly shifts: Map<string, Shift>;
  readonly numbers: Map<string, readonly number[] | null>;
  readonly uses: Map<string, ChartUse>;
  readonly shots: TableShot[];
  readonly trials: GrowingTrials;
  steps: number;
  /** Called for each card that is asked. */
  readonly onStep: OnStep | null;
}

export type OnStep = (step: Step) => void;

/** A card was asked. */
export interface Step {
  readonly card: string;
  readonly kind: Kind;
  readonly day: number;
  /** The whole study days since the card was last asked; 0 if it never was. */
  readonly days: number;
  /** The memory; null if the card was never asked or begins again because its number moved. */
  readonly before: Memory | null;
  readonly outcome: Outcome;
  readonly how: How;
  /** Answer minus truth, in diamonds, one per field; null if no number was given. */
  readonly errors: readonly number[] | null;
}

/**
 * Whether the app graded the answer ('asked'), the player judged it ('judged'), or placement asked the
 * question ('proved'). An answer of a rehearsal or a drill that counts is 'asked'.
 */
export type How = 'asked' | 'judged' | 'proved';

export function emptyFold(model: MemoryModel, onStep: OnStep | null = null): Fold {
  return {
    model,
    memories: new Map(),
    met: new Map(),
    times: new Map(),
    aside: new Set(),
    notes: new Map(),
    flags: new Map(),
    moved: new Map(),
    shifts: new Map(),
    numbers: new Map(),
    uses: new Map(),
    shots: [],
    trials: noTrials(),
    steps: 0,
    onStep,
  };
}

/** Returns a fold that continues from a state or a snapshot, which stays unchanged. */
export function continuedFold(from: Folded, model: MemoryModel): Fold {
  return { ...copyOf(from), model, onStep: null };
}

/** Copies the folded parts, without anything else that the object has. */
export function copyOf(from: Folded) {
  return {
    memories: new Map(from.memories),
    met: new Map(from.met),
    times: new Map([...from.times].map(([kind, list]) => [kind, [...list]])),
    aside: new Set(from.aside),
    notes: new Map(from.notes),
    flags: new Map(from.flags),
    moved: new Map(from.moved),
    shifts: new Map(from.shifts),
    numbers: new Map(from.numbers),
    uses: new Map(from.uses),
    shots: [...from.shots],
    trials: copyTrials(from.trials),
    steps: from.steps,
  };
}
