/**
 * What a revision of a chart does to a player's memory. If the printed number stays, nothing changes.
 * If it changes within the tolerance, memory stays and the change is shown once. Beyond the tolerance
 * the card is due at once and is relearned. The number to compare with is the one that memory stands
 * for, so small shifts that were never shown add up.
 */

import { type Chart, type Decimal, minus, size, toDecimal, toNumber } from '../charts/index.ts';
import { questionOf } from './ask.ts';
import { type Card, cardsOf, isLineCard, type LineCard } from './card.ts';
import type { Effect, Move } from './move.ts';

/**
 * The rule for one card.
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

/** What a revision has to know of a player's memory. */
export interface Remembered {
  /** Is the card remembered, or was it until its number moved. */
  readonly has: (card: string) => boolean;
  /** The number that the card's memory stands for; null if it is the one the chart had last. */
  readonly standsFor: (card: string) => readonly number[] | null;
  /** Is the line set aside, or has it a note or a flag. */
  readonly marked: (line: string) => boolean;
  /** The number that waits to be shown as new when the card comes up; null if none does. */
  readonly pending: (card: string) => readonly number[] | null;
}

/** Counts are of lines, each by the worst effect on its cards. */
export interface Effects {
  readonly moves: readonly Move[];
  readonly moved: number;
  readonly shifted: number;
  readonly left: number;
  /** Remembered lines that do not change. */
  readonly untouched: number;
  /** Lines of the new chart that are not remembered. */
  readonly unlearned: number;
}

/**
 * What happens to each remembered card when one chart replaces another.
 * @param tolerance in force; a verdict has none, so any change moves it
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
    // Cards that return to the chart: only the log knows what was learned of them.
    ...now
      .filter((card) => !keys.has(keyOf(card)) && remembered.standsFor(card.id) !== null)
      .map((card) => [card, card] as const),
  ]
    .filter(([{ id }]) => remembered.has(id))
    .map(([card, twin]) => moveOf(before, after, card, twin, tolerance, remembered));
  return {
    // A move that the log has already is left out.
    moves: moves.filter(({ card, was, to, from }) => {
      const last = remembered.pending(was ?? card) ?? from;
      return was !== undefined || to === null || !sameNumbers(last, to);
    }),
    ...counted(moves, now, remembered),
  };
}

/**
 * Cards that have another id in the new chart although no number changes: skills, and lines that are
 * marked but not remembered.
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
 * Moves of cards whose memory stands for other numbers than the chart's although the log has no such
 * revision: the memory came from another device, or is older than the chart.
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

/** A change that already waits to be shown does not count as this revision's. */
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
