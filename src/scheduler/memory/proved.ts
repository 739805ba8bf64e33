/** Placement: computes the memory of a card that the player knew before the app ever asked it. */

import type { Outcome } from '../../cards/index.ts';
import type { Memory, MemoryModel } from './memory.ts';

/**
 * The stability with which a proven card begins, in days. `implied` is for a card that was not asked
 * but has proven neighbors. These values are our own choice, from common practice, without a source.
 */
export const PROVED: Readonly<Record<Exclude<Outcome, 'off'> | 'implied', number>> = {
  'dead center': 30,
  pocketed: 15,
  rattled: 6,
  implied: 7,
};

/**
 * Returns the memory after a card was asked in placement. A card that was off begins like any missed
 * card. For a card that already has a memory, this is an answer like any other.
 * @param memory the memory before the answer; null before the first answer
 * @param days the whole study days since the last answer
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

/** Returns the memory of a card that was not asked because its neighbors were proven. */
export function rememberImplied(model: MemoryModel): Memory {
  return known(model, PROVED.implied);
}

/**
 * Returns a memory with a given stability. Its difficulty is that after a first pocketed answer,
 * because nothing shows yet whether the card is hard or easy.
 */
function known({ remember }: MemoryModel, stability: number): Memory {
  return { stability, difficulty: remember(null, 0, 'pocketed').difficulty };
}
