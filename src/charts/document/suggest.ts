/** In what order to learn a chart's lines: those first that drop most often where they are used most. */

import type { LinePlace, Priority } from './document.ts';

export interface Candidate extends LinePlace {
  /** Width of what drops at medium speed, diamonds of aim; 0 if nothing does. */
  readonly width: number;
  /** How often it comes up, of any scale. */
  readonly use: number;
}

export type Ordered = Candidate & { readonly priority: Priority };

/**
 * Widest times use first, equals in the order given. The first third is to be learned first, the last
 * third last; a third of lines that do not come out is rounded down, so that two lines are in turn.
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
