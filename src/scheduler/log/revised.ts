/** Applies a chart's revision to the memory of its cards. */

import type { Move } from '../../cards/index.ts';
import type { Revised } from './events.ts';
import type { Fold } from './fold.ts';
import type { CardMemory, MovedCard } from './state.ts';

/**
 * Applies all moves of a revision. A card that moved begins again: it has no memory until it is
 * answered, but its answers stay in the log. Two devices that receive the same revision write the same
 * moves. The second event must not undo what was learned since the first. So a move does nothing if
 * the card already has its number.
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

/**
 * Returns a card that moved. If it moves again before the player saw the new number, `from` stays the
 * first number.
 */
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
 * Moves a card back to the number that was learned, or near it. If the player has seen a different
 * number since, the card's number is learned like any other.
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
 * Copies the memory of one card to another, and the marks of its line. Returns false and copies no
 * memory if the other card has its own or has to be learned again. The move is then skipped.
 */
function carry(fold: Fold, was: string, { card, line }: Move): boolean {
  carryMarks(fold, was.replace(/\/medium\/[^/]*$/, ''), line);
  if (fold.memories.has(card) || fold.moved.has(card)) return false;
  const memory = fold.memories.get(was);
  if (memory) fold.memories.set(card, memory);
  return true;
}

/**
 * Copies whether a line is set aside, its note, and its flag. The note and the flag are not copied if
 * the other line has its own.
 */
function carryMarks(fold: Fold, from: string, to: string): void {
  if (from === to) return;
  if (fold.aside.has(from)) fold.aside.add(to);
  const note = fold.notes.get(from);
  if (note !== undefined && !fold.notes.has(to)) fold.notes.set(to, note);
  const flag = fold.flags.get(from);
  if (flag && !fold.flags.has(to)) fold.flags.set(to, flag);
}

/** Returns whether these are already the card's numbers in the log. */
function isThere(fold: Fold, card: string, to: readonly number[] | null): boolean {
  const waiting = fold.moved.get(card) ?? fold.shifts.get(card);
  if (waiting) return same(waiting.to, to);
  const memory = fold.memories.get(card);
  const learned = memory && to !== null ? lastTruth(memory) : null;
  return same(learned ?? fold.numbers.get(card), to);
}

/** Returns the right numbers when a card was last answered, in diamonds; null if they are unknown. */
export function lastTruth({ told }: CardMemory): readonly number[] | null {
  if (!told?.answer) return null;
  const { answer, errors } = told;
  // Numbers are stored in whole ten-thousandths. Adding 0 turns −0 into 0.
  return answer.map((value, n) => Math.round((value - (errors?.[n] ?? 0)) * 1e4) / 1e4 + 0);
}

function same(last: readonly number[] | null | undefined, to: readonly number[] | null): boolean {
  if (last === undefined || last === null || to === null) return last === to;
  return last.length === to.length && last.every((value, n) => value === to[n]);
}
