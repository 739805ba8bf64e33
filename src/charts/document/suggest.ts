/** Suggests in which order to learn a chart's lines: widest and most used first. */

import type { LinePlace, Priority } from './document.ts';

export interface Candidate extends LinePlace {
  /** Width of the make window at medium speed, diamonds of aim; 0 if nothing drops. */
  readonly width: number;
  /** How often the line comes up, on any scale. */
  readonly use: number;
}

export type Ordered = Candidate & { readonly priority: Priority };

/**
 * Sorted by width times use, equals in the given order. The first third is learned first and the last
 * third last. A third is rounded down, so that of two lines both are in turn.
 */
export function suggestOrder(candidates: readonly Candidate[]): readonly Ordered[] {
  const third = Math.floor(candidates.length / 3);
  const worth = ({ width, use }: Candidate) => width * use;
  // Sorting is stable (ECMAScript 2019).
  const sorted = [...candidates].sort((a, b) => worth(b) - worth(a));
  return sorted.map((candidate, n) => ({
    ...candidate,
    priority: n < third ? 'first' : n >= sorted.length - third ? 'last' : 'in turn',
  }));
}
