/** Placement: the memory of a card that the player knew before the app ever asked it. */

import type { Outcome } from '../../cards/index.ts';
import type { Memory, MemoryModel } from './memory.ts';

/**
 * The stability that a proven card begins with, days; `implied` if its neighbors were proven and it
 * was not asked itself. These are ours: common practice, no source.
 */
export const PROVED: Readonly<Record<Exclude<Outcome, 'off'> | 'implied', number>> = {
  'dead center': 30,
  pocketed: 15,
  rattled: 6,
  implied: 7,
};

/**
 * Memory after a card was asked in placement. A card that is off begins like any missed card, and
 * for a card that has a memory this is an answer like any other.
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

/** Memory of a card that was not asked because its neighbors were proven. */
export function rememberImplied(model: MemoryModel): Memory {
  return known(model, PROVED.implied);
}

/** Difficulty is that of a first answer pocketed: nothing yet shows the card to be hard or easy. */
function known({ remember }: MemoryModel, stability: number): Memory {
  return { stability, difficulty: remember(null, 0, 'pocketed').difficulty };
}
