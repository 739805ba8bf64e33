/** What a revision of a chart does to the memory of its cards. */

import type { Move } from '../cards/index.ts';
import type { Revised } from './events.ts';
import type { Fold } from './fold.ts';

/**
 * A card that moved begins anew: it has no memory until it is answered, and its answers stay in the
 * log. Two devices that took in the same revision write the same moves: the second time says nothing
 * new and must not undo what was learned since, so a move to where the card already is does nothing.
 */
export function takeRevised(fold: Fold, { moves, day }: Revised): void {
  for (const move of moves) takeMove(fold, move, day);
}

function takeMove(fold: Fold, move: Move, day: number): void {
  const { card, line, effect, from, to, was } = move;
  if (was !== undefined) carry(fold, was, card);
  if (same(fold.numbers.get(card), to)) return;
  fold.numbers.set(card, to);
  if (effect === 'moved' && to !== null) {
    const since = fold.memories.get(card)?.firstDay ?? fold.moved.get(card)?.since ?? day;
    fold.memories.delete(card);
    fold.shifts.delete(card);
    const elsewhere = was !== undefined;
    fold.moved.set(card, { line, from, to, elsewhere, day, since, shown: false });
  } else if (effect === 'unchanged') {
    fold.shifts.delete(card);
  } else if (fold.memories.has(card)) {
    fold.shifts.set(card, { from, to });
  }
}

/** The memory of one card goes on in another, unless that has its own, or is to be learned anew. */
function carry(fold: Fold, was: string, card: string): void {
  const memory = fold.memories.get(was);
  if (memory && !fold.memories.has(card) && !fold.moved.has(card)) fold.memories.set(card, memory);
}

function same(last: readonly number[] | null | undefined, to: readonly number[] | null): boolean {
  if (last === undefined || last === null || to === null) return last === to;
  return last.length === to.length && last.every((value, n) => value === to[n]);
}
