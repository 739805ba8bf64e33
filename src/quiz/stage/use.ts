/** How often a pattern comes up, and what it is worth. */

import { type PatternId, patternOf } from '../../charts/index.ts';
import type { Settings, Use } from '../../store/index.ts';

/** Relative frequencies of patterns in play (common practice, no source). */
export const USE_WEIGHTS: Readonly<Record<Use, number>> = {
  seldom: 1,
  'now and then': 2,
  often: 4,
};

/** Returns a pattern's value, relative to a pattern that comes up now and then. */
export function worthOf(use: Use): number {
  return USE_WEIGHTS[use] / USE_WEIGHTS['now and then'];
}

/**
 * Returns how often a pattern comes up: what the player set, or else an estimate from its number of
 * cushions.
 */
export function useOf(use: Settings['use'], pattern: PatternId): Use {
  const byCushions = { 1: 'often', 2: 'now and then' } as const;
  const cushions = patternOf(pattern).cushions.length;
  return use[pattern] ?? byCushions[cushions as 1 | 2] ?? 'seldom';
}
