/** What taking a suggested order over would change, before it is taken. */

import { type ChartState, type LinePlace, type Priority, priorityOf } from './document.ts';
import type { Ordered } from './suggest.ts';

export interface OrderChange {
  /** Lines that would be learned at another time than now. */
  readonly moves: readonly (LinePlace & { readonly from: Priority; readonly to: Priority })[];
  /** Priorities of lines and of whole patterns that the chart has now and that would give way. */
  readonly replaced: number;
}

export function orderChange(state: ChartState, order: readonly Ordered[]): OrderChange {
  const moves = order.flatMap(({ pattern, start, priority: to }) => {
    const from = priorityOf(state, { pattern, start });
    return from === to ? [] : [{ pattern, start, from, to }];
  });
  const patterns = new Set(order.map(({ pattern }) => pattern));
  const wanted = new Map(order.map((one) => [`${one.pattern} ${one.start}`, one.priority]));
  const replaced = state.priorities.filter(
    ({ pattern, start, priority }) =>
      patterns.has(pattern) && wanted.get(`${pattern} ${start}`) !== priority,
  );
  return { moves, replaced: replaced.length };
}
