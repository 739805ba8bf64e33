/**
 * Works out what a revision of a chart does to a player's memory. If the printed number stays the
 * same, nothing changes. If it changes by no more than the tolerance, memory stays and the change
 * is shown once. If it changes by more, the card is due at once and is relearned. The comparison is
 * with the number that the player's memory stands for, so small changes that were never shown add
 * up.
 */

import { type Chart, type Decimal, minus, size, toDecimal, toNumber } from '../charts/index.ts';
import { questionOf } from './ask.ts';
import { type Card, cardsOf, isLineCard, type LineCard } from './card.ts';
import type { Effect, Move } from './move.ts';

/**
 * Returns the effect of a change on one card.
 * @param from the number that memory stands for, one decimal per field
 * @param to the new number; null if the card has left the chart
 */
export function effectOf(
  from: readonly Decimal[],
  to: readonly Decimal[] | null,
  tolerance: Decimal,
): Effect {
  if (to === null) return 'left';
  const changes = to.map((value, field) => size(minus(value, from[field] ?? value)));
  const most = Math.max(...changes);
  if (most === 0) return 'unchanged';
  return most <= tolerance ? 'shifted' : 'moved';
}

/** What a revision must know about a player's memory. */
export interface Remembered {
  /** Returns whether the card is remembered, or was remembered until its number moved. */
  readonly has: (card: string) => boolean;
  /**
   * Returns the number that the card's memory stands for; null if it is the number that the chart
   * had last.
   */
  readonly standsFor: (card: string) => readonly number[] | null;
  /** Returns whether the line is set aside or has a note or a flag. */
  readonly marked: (line: string) => boolean;
  /** Returns the number that will be shown as new when the card comes up; null if there is none. */
  readonly pending: (card: string) => readonly number[] | null;
}

/**
 * The effects of a revision. Each count is a number of lines; a line counts by the worst effect on
 * any of its cards.
 */
export interface Effects {
  readonly moves: readonly Move[];
  readonly moved: number;
  readonly shifted: number;
  readonly left: number;
  /** How many remembered lines do not change. */
  readonly untouched: number;
  /** How many lines of the new chart are not remembered. */
  readonly unlearned: number;
}

/**
 * Returns what happens to each remembered card when one chart replaces another.
 * @param tolerance the tolerance now in use. A verdict has no tolerance, so any change moves it.
 */
export function effectsOf(
  before: Chart,
  after: Chart,
  tolerance: Decimal,
  remembered: Remembered,
): Effects {
  const old = lineCards(before, tolerance);
  const now = lineCards(after, tolerance);
  const twins = new Map(now.map((card) => [keyOf(card), card]));
  const keys = new Set(old.map(keyOf));
  const moves = [
    ...old.map((card) => [card, twins.get(keyOf(card)) ?? null] as const),
    // For cards that return to the chart, only the log knows which number was learned.
    ...now
      .filter((card) => !keys.has(keyOf(card)) && remembered.standsFor(card.id) !== null)
      .map((card) => [card, card] as const),
  ]
    .filter(([{ id }]) => remembered.has(id))
    .map(([card, twin]) => moveOf(before, after, card, twin, tolerance, remembered));
  return {
    // A move that is already in the log is left out.
    moves: moves.filter(({ card, was, to, from }) => {
      const last = remembered.pending(was ?? card) ?? from;
      return was !== undefined || to === null || !sameNumbers(last, to);
    }),
    ...counted(moves, now, remembered),
  };
}

/**
 * Returns the cards that have a different id in the new chart although no number changes. These are
 * skills, and lines that are marked but not remembered.
 */
export function renamedCards(
  before: Chart,
  after: Chart,
  tolerance: Decimal,
  { has, marked }: Remembered,
): readonly Move[] {
  const now = new Map(cardsOf(after, tolerance).map((card) => [placeOf(card), card]));
  return cardsOf(before, tolerance).flatMap((card): Move[] => {
    const twin = now.get(placeOf(card));
    if (!twin || twin.id === card.id) return [];
    const carries = isLineCard(card)
      ? card.kind === 'number' && !has(card.id) && marked(card.lineId)
      : has(card.id);
    const same = { effect: 'unchanged', from: [], to: [] } as const;
    return carries ? [{ card: twin.id, line: twin.lineId, was: card.id, ...same }] : [];
  });
}

function placeOf(card: Card): string {
  return isLineCard(card) ? keyOf(card) : `${card.pattern} ${card.zone} ${card.kind}`;
}

/**
 * Returns the moves of cards for which memory stands for a different number from the chart's,
 * although the log has no such revision. The memory then came from another device or is older than
 * the chart.
 */
export function overdueMoves(
  chart: Chart,
  tolerance: Decimal,
  remembered: Remembered,
): readonly Move[] {
  return effectsOf(chart, chart, tolerance, remembered).moves;
}

function sameNumbers(a: readonly number[], b: readonly number[]): boolean {
  return a.length === b.length && a.every((value, n) => value === b[n]);
}

function lineCards(chart: Chart, tolerance: Decimal): readonly LineCard[] {
  return cardsOf(chart, tolerance).filter((card: Card): card is LineCard => isLineCard(card));
}

function keyOf({ pattern, start, kind }: LineCard): string {
  return `${pattern} ${start} ${kind}`;
}

function moveOf(
  before: Chart,
  after: Chart,
  card: LineCard,
  twin: LineCard | null,
  tolerance: Decimal,
  { standsFor }: Remembered,
): Move {
  const from = standsFor(card.id)?.map(toDecimal) ?? truthOf(before, card, tolerance)?.truth ?? [];
  const now = twin && truthOf(after, twin, tolerance);
  const effect = effectOf(from, now?.truth ?? null, now?.tolerance ?? tolerance);
  return {
    card: twin?.id ?? card.id,
    line: twin?.lineId ?? card.lineId,
    ...(twin && twin.id !== card.id ? { was: card.id } : {}),
    effect,
    from: from.map(toNumber),
    to: now?.truth.map(toNumber) ?? null,
  };
}

function truthOf(chart: Chart, card: LineCard, tolerance: Decimal) {
  return questionOf({ chart, tolerance, speeds: ['medium'] }, card, 0);
}

const WORST: readonly Effect[] = ['moved', 'left', 'shifted', 'unchanged'];

/**
 * Counts the lines by effect. A change that already waits to be shown does not count as this
 * revision's.
 */
function counted(
  moves: readonly Move[],
  now: readonly LineCard[],
  { pending }: Remembered,
): Omit<Effects, 'moves'> {
  const lines = new Map<string, Effect>();
  for (const { card, was, line, effect: own, to } of moves) {
    const waiting = pending(was ?? card);
    const effect = waiting && to && sameNumbers(waiting, to) ? 'unchanged' : own;
    const other = lines.get(line) ?? effect;
    lines.set(line, WORST.find((one) => one === effect || one === other) ?? effect);
  }
  const count = (wanted: Effect) => [...lines.values()].filter((one) => one === wanted).length;
  const all = new Set(now.map(({ lineId }) => lineId));
  return {
    moved: count('moved'),
    shifted: count('shifted'),
    left: count('left'),
    untouched: count('unchanged'),
    unlearned: [...all].filter((line) => !lines.has(line)).length,
  };
}
