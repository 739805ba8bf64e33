/** Computes what a suggested order would change, so that it can be shown before it is applied. */

import {
  type ChartState,
  type LinePlace,
  type Priority,
  placeKey,
  priorityOf,
} from './document.ts';
import type { Ordered } from './suggest.ts';

export interface OrderChange {
  /** The lines that would get a different priority. */
  readonly moves: readonly (LinePlace & { readonly from: Priority; readonly to: Priority })[];
  /** How many of the chart's priorities would be replaced, both of lines and of whole patterns. */
  readonly replaced: number;
}

export function orderChange(state: ChartState, order: readonly Ordered[]): OrderChange {
  const moves = order.flatMap(({ pattern, start, priority: to }) => {
    const from = priorityOf(state, { pattern, start });
    return from === to ? [] : [{ pattern, start, from, to }];
  });
  const patterns = new Set(order.map(({ pattern }) => pattern));
  const wanted = new Map(order.map((one) => [placeKey(one), one.priority]));
  const replaced = state.priorities.filter(
    (entry) => patterns.has(entry.pattern) && wanted.get(placeKey(entry)) !== entry.priority,
  );
  return { moves, replaced: replaced.length };
}
