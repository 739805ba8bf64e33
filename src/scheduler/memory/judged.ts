/** Memory after an answer that the player judged themselves, away from the screen. */

import type { Memory, MemoryModel } from './memory.ts';

/**
 * Nobody saw a "had it", so it moves memory half-way on the scale on which stability grows:
 *
 *   ln S′ = ½ (ln S + ln S_full),
 *
 * where S_full is the stability after the same answer typed and pocketed.
 * Hence S ≤ S′ ≤ S_full, because a pocketed answer never lowers S. Difficulty is that after the
 * typed answer. A card's first "had it" counts as a rattled answer. "Not" counts in full: nobody
 * gains by admitting a miss. The halving is ours: common practice, no source.
 * @param memory null before the first answer
 * @param days whole study-days since the last answer
 * @param hadIt what the player said
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
