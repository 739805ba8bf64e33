/** What a revision of a chart does to the memory of its cards. */

import type { Move } from '../../cards/index.ts';
import type { Revised } from './events.ts';
import type { Fold } from './fold.ts';
import type { CardMemory, MovedCard } from './state.ts';

/**
 * A card that moved begins again: it has no memory until it is answered; its answers stay in the
 * log. Two devices that receive one revision write the same moves. The second event is no news and
 * must not undo what was learned since, so a move to where the card already is does nothing.
 */
export function applyRevised(fold: Fold, { moves, day }: Revised): void {
  for (const move of moves) applyMove(fold, move, day);
}

function applyMove(fold: Fold, move: Move, day: number): void {
  const { card, effect, from, to, was } = move;
  if (was !== undefined && !carry(fold, was, move)) return;
  if (isThere(fold, card, to)) return;
  fold.numbers.set(card, to);
  const waiting = fold.moved.get(card);
  if (effect === 'moved' && to !== null) {
    fold.moved.set(card, movedTo(fold, move, to, day));
    fold.memories.delete(card);
    fold.shifts.delete(card);
  } else if (waiting && to !== null) {
    moveBack(fold, move, waiting, to);
  } else if (effect === 'unchanged') {
    fold.shifts.delete(card);
  } else if (fold.memories.has(card)) {
    fold.shifts.set(card, { from, to });
  }
}

/** If it moves again before the player saw the new number, it has moved from where it was first. */
function movedTo(
  fold: Fold,
  { card, line, from, was }: Move,
  to: readonly number[],
  day: number,
): MovedCard {
  const waiting = fold.moved.get(card);
  const memory = fold.memories.get(card) ?? waiting?.memory ?? null;
  const since = memory?.firstDay ?? waiting?.since ?? day;
  const learned = memory && !waiting ? lastTruth(memory) : null;
  const first = waiting && !waiting.shown ? waiting.from : (learned ?? from);
  const elsewhere = waiting?.elsewhere ?? was !== undefined;
  return { line, from: first, to, elsewhere, day, since, memory, shown: false };
}

/**
 * The number of a card that moved returns to what was learned, or near it. If the player has seen a
 * different number since, this one is learned like any other.
 */
function moveBack(
  fold: Fold,
  { card, effect, from }: Move,
  waiting: MovedCard,
  to: readonly number[],
): void {
  if (waiting.shown) {
    fold.moved.set(card, { ...waiting, to });
    return;
  }
  fold.moved.delete(card);
  if (!waiting.memory) return;
  fold.memories.set(card, waiting.memory);
  if (effect === 'shifted') fold.shifts.set(card, { from, to });
}

/**
 * Copies the memory of one card to another, with the marks of its line. False, with no memory
 * copied, if the other card has its own or is to be learned again: then the move itself is skipped.
 */
function carry(fold: Fold, was: string, { card, line }: Move): boolean {
  carryMarks(fold, was.replace(/\/medium\/[^/]*$/, ''), line);
  if (fold.memories.has(card) || fold.moved.has(card)) return false;
  const memory = fold.memories.get(was);
  if (memory) fold.memories.set(card, memory);
  return true;
}

/** Set aside, a note, a flag: each is copied unless the other line has its own. */
function carryMarks(fold: Fold, from: string, to: string): void {
  if (from === to) return;
  if (fold.aside.has(from)) fold.aside.add(to);
  const note = fold.notes.get(from);
  if (note !== undefined && !fold.notes.has(to)) fold.notes.set(to, note);
  const flag = fold.flags.get(from);
  if (flag && !fold.flags.has(to)) fold.flags.set(to, flag);
}

/** Does the log already say that these are the card's numbers. */
function isThere(fold: Fold, card: string, to: readonly number[] | null): boolean {
  const waiting = fold.moved.get(card) ?? fold.shifts.get(card);
  if (waiting) return same(waiting.to, to);
  const memory = fold.memories.get(card);
  const learned = memory && to !== null ? lastTruth(memory) : null;
  return same(learned ?? fold.numbers.get(card), to);
}

/** What was right when a card was last answered, diamonds, one per field; null if unknown. */
export function lastTruth({ told }: CardMemory): readonly number[] | null {
  if (!told?.answer) return null;
  const { answer, errors } = told;
  // Numbers are written in whole ten-thousandths. Adding 0 turns −0 into 0.
  return answer.map((value, n) => Math.round((value - (errors?.[n] ?? 0)) * 1e4) / 1e4 + 0);
}

function same(last: readonly number[] | null | undefined, to: readonly number[] | null): boolean {
  if (last === undefined || last === null || to === null) return last === to;
  return last.length === to.length && last.every((value, n) => value === to[n]);
}
