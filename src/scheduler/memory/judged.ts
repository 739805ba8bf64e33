/** Computes memory after an answer that the player gave away from the screen and judged. */

import type { Memory, MemoryModel } from './memory.ts';

/**
 * Returns memory after an answer that the player judged. Nobody saw a "had it", so it moves stability
 * only halfway, on the logarithmic scale on which stability grows:
 *
 *   ln S′ = ½ (ln S + ln S_full),
 *
 * where S_full is the stability if the same answer had been typed and was pocketed. So
 * S ≤ S′ ≤ S_full, because a pocketed answer never lowers S. Difficulty is the same as after the typed
 * answer. The first "had it" of a card counts as a rattled answer. "Not" counts in full, because
 * nobody gains by admitting a miss. The halving is our own choice, from common practice, without a
 * source.
 * @param memory the memory before the answer; null before the first answer
 * @param days the whole study days since the last answer
 * @param hadIt whether the player said "had it"
 */
export function rememberJudged(
  { remember }: MemoryModel,
  memory: Memory | null,
  days: number,
  hadIt: boolean,
): Memory {
  if (!hadIt) return remember(memory, days, 'off');
  if (!memory) return remember(null, 0, 'rattled');
  const full = remember(memory, days, 'pocketed');
  return {
    stability: Math.sqrt(memory.stability * full.stability),
    difficulty: full.difficulty,
  };
}
