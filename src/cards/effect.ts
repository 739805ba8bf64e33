/**
 * What a revision of a chart does to what a player remembers. A number that is printed as before
 * changes nothing; within the tolerance memory is kept, and the change is shown once; beyond it the
 * card comes back at once and is learned anew. What is compared is the number that memory stands
 * for: two small shifts that were never shown add up.
 */

import { type Chart, type Decimal, minus, size, toDecimal, toNumber } from '../charts/index.ts';
import { questionOf } from './ask.ts';
import { type Card, cardsOf, isLineCard, type LineCard } from './card.ts';
import type { Effect, Move } from './move.ts';

/**
 * The rule, for one card.
 * @param from what memory stands for, one decimal a field
 * @param to what is right now; null if the card is no longer on the chart
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

/** What a player remembers, as far as a revision needs to know it. */
export interface Remembered {
  /** Is a card remembered, or was it until its number moved. */
  readonly has: (card: string) => boolean;
  /** The number that a card's memory stands for; null for that which the chart had last. */
  readonly standsFor: (card: string) => readonly number[] | null;
  /** Was anything said of a line: set aside, a note, a flag. */
  readonly marked: (line: string) => boolean;
  /** The number that the player will be shown as new when the card comes up; null if there is none. */
  readonly pending: (card: string) => readonly number[] | null;
}

/** The number of lines a revision touches, each counted by the worst of its cards. */
export interface Effects {
  readonly moves: readonly Move[];
  readonly moved: number;
  readonly shifted: number;
  readonly left: number;
  /** Remembered lines of which nothing changes. */
  readonly untouched: number;
  /** Lines of the new chart of which nothing is remembered. */
  readonly unlearned: number;
}

/**
 * What becomes of each remembered card when one chart takes another's place.
 * @param tolerance in force; a verdict has none, and moves whenever it changes
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
    // Cards that come back to the chart: what was learned of them is told by the log alone.
    ...now
      .filter((card) => !keys.has(keyOf(card)) && remembered.standsFor(card.id) !== null)
      .map((card) => [card, card] as const),
  ]
    .filter(([{ id }]) => remembered.has(id))
    .map(([card, twin]) => moveOf(before, after, card, twin, tolerance, remembered));
  return {
    // One that the log has already where it is now is not told again.
    moves: moves.filter(({ card, was, to, from }) => {
      const last = remembered.pending(was ?? card) ?? from;
      return was !== undefined || to === null || !sameNumbers(last, to);
    }),
    ...counted(moves, now, remembered),
  };
}

/**
 * Cards of which no number changes but that have another id in the new chart: skills, and lines of
 * which nothing is remembered but something was said.
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
    const goesOn = isLineCard(card)
      ? card.kind === 'number' && !has(card.id) && marked(card.lineId)
      : has(card.id);
    const same = { effect: 'unchanged', from: [], to: [] } as const;
    return goesOn ? [{ card: twin.id, line: twin.lineId, was: card.id, ...same }] : [];
  });
}

function placeOf(card: Card): string {
  return isLineCard(card) ? keyOf(card) : `${card.pattern} ${card.zone} ${card.kind}`;
}

/**
 * Moves of cards whose memory stands for other numbers than the chart's, though no revision said so:
 * it came from another device, or before the chart.
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

/** A change that is already waiting to be shown is not one of this revision. */
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
