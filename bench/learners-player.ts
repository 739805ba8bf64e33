/**
 * Simulated players. Each remembers by their own weights and answers from what they truly remember;
 * contenders see only the answers. All shares are our own; none comes from a study.
 */

import { createDice, type Outcome } from '../src/cards/index.ts';
import {
  clippedWeights,
  DEFAULT_WEIGHTS,
  type Memory,
  type MemoryModel,
  memoryModel,
} from '../src/scheduler/index.ts';

export interface Player {
  readonly model: MemoryModel;
  /** Days without practice, by number from 0. */
  readonly missed: readonly boolean[];
  /** The outcome of an answer, from the true memory before it. */
  readonly answer: (memory: Memory | null, days: number) => Outcome;
  readonly dice: () => number;
}

/** Spread of a weight between players, in the logarithm of the quantity it scales. */
const SPREAD = 0.2;

/** First stabilities, growth of stability (itself an exponent) and stability after a miss. */
const SPREAD_WEIGHTS = [0, 1, 2, 3, 11] as const;
const SPREAD_EXPONENTS = [8] as const;

/** Share of days without practice. */
const MISSED = 0.15;

/** Share of remembered lines that are answered off all the same. */
const SLIPS = 0.03;

export function createPlayer(seed: number, days: number): Player {
  const { next } = createDice(seed);
  const within = (low: number, high: number) => low + (high - low) * next();
  const weights = [...DEFAULT_WEIGHTS];
  for (const n of SPREAD_WEIGHTS)
    weights[n] = (weights[n] as number) * Math.exp(SPREAD * normal(next));
  for (const n of SPREAD_EXPONENTS) weights[n] = (weights[n] as number) + SPREAD * normal(next);
  const model = memoryModel(clippedWeights(weights));
  const firstRight = within(0.7, 0.9);
  const [rattled, dead] = [within(0.1, 0.3), within(0.05, 0.25)];
  const missed = Array.from({ length: days }, () => next() < MISSED);
  const { next: dice } = createDice(seed ^ 0x5bd1e995);
  const answer = (memory: Memory | null, since: number): Outcome => {
    const recall = memory ? model.recall(memory, since) * (1 - SLIPS) : firstRight;
    if (dice() >= recall) return 'off';
    const how = dice();
    if (how < rattled) return 'rattled';
    return how < 1 - dead ? 'pocketed' : 'dead center';
  };
  return { model, missed, answer, dice };
}

/** Box & Muller 1958. */
function normal(next: () => number): number {
  return Math.sqrt(-2 * Math.log(1 - next())) * Math.cos(2 * Math.PI * next());
}
