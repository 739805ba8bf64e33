/** Placement: what is remembered of a card that was known before the app ever asked it. */

import type { Outcome } from '../../cards/index.ts';
import type { Memory, MemoryModel } from './memory.ts';

/**
 * Stability that a proven card begins with, days; `implied` if its neighbours were proven and it
 * was not asked itself. These are ours: common practice, no source.
 */
export const PROVED: Readonly<Record<Exclude<Outcome, 'off'> | 'implied', number>> = {
  'dead center': 30,
  pocketed: 15,
  rattled: 6,
  implied: 7,
};

/**
 * Memory after a card was asked in placement. One that is off begins as any card does that is
 * missed, and one that has a memory already was simply answered.
 * @param memory null before the first answer
 * @param days whole study-days since the last answer
 */
export function rememberProved(
  model: MemoryModel,
  memory: Memory | null,
  days: number,
  outcome: Outcome,
): Memory {
  if (memory || outcome === 'off') return model.remember(memory, days, outcome);
  return known(model, PROVED[outcome]);
}

/** Memory of a card that was not asked: its neighbours were proven. */
export function rememberImplied(model: MemoryModel): Memory {
  return known(model, PROVED.implied);
}

/** Difficulty is that of a first answer pocketed: nothing yet says that the card is hard or easy. */
function known({ remember }: MemoryModel, stability: number): Memory {
  return { stability, difficulty: remember(null, 0, 'pocketed').difficulty };
}
