/**
 * Suggests the order in which to learn a chart's lines: those with the widest make window and the
 * most use first.
 */

import type { LinePlace, Priority } from './document.ts';

export interface Candidate extends LinePlace {
  /** Width of the make window at medium speed, in diamonds of aim; 0 if nothing drops. */
  readonly width: number;
  /** How often the line comes up. Any scale will do. */
  readonly use: number;
}

export type Ordered = Candidate & { readonly priority: Priority };

/**
 * Returns the lines sorted by width times use; lines with equal values keep their order. The first
 * third gets the priority `first`, the last third gets `last`. A third is rounded down, so that two
 * lines are both `in turn`.
 */
export function suggestOrder(candidates: readonly Candidate[]): readonly Ordered[] {
  const third = Math.floor(candidates.length / 3);
  const worth = ({ width, use }: Candidate) => width * use;
  // Sorting keeps the order of equal values (ECMAScript 2019).
  const sorted = [...candidates].sort((a, b) => worth(b) - worth(a));
  return sorted.map((candidate, n) => ({
    ...candidate,
    priority: n < third ? 'first' : n >= sorted.length - third ? 'last' : 'in turn',
  }));
}
