/** What can be asked: the cards that a player learns, and how many lines depend on each. */

import { type Card, isLineCard, type Kind } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';
import { type Learning, learnedOf } from './learned.ts';

/** What the player wants. */
export interface Wish extends Learning {
  /** Show and explain a new line before it is first asked. */
  readonly meetFirst: boolean;
  /** The most new lines a day; null for no limit. */
  readonly newLinesADay: number | null;
  /** The study day that counts; null for one that is always AHEAD days away. */
  readonly day: number | null;
  /** How much a pattern counts, by how often it comes up. */
  readonly worth: (pattern: Card['pattern']) => number;
  /** Which cards may be asked in this session; all of them if left out. */
  readonly fits?: (card: Card) => boolean;
}

/** A card as the chooser sees it. Plain data, so it can be sent to a worker. */
export interface Item {
  readonly id: string;
  readonly kind: Kind;
  readonly pattern: string;
  readonly line: string;
  /** Weighted number of lines that depend on it. */
  readonly weight: number;
  /** Indexes of the items that must be known before this one is first asked. */
  readonly after: readonly number[];
  /** Indexes of all cards of its line, itself included. They are asked on different days. */
  readonly siblings: readonly number[];
  /** Whether its line is shown before it is first asked. */
  readonly shows: boolean;
  /** Whether it may be asked at all; by ear, a picture cannot be. */
  readonly open: boolean;
}

/** A line without a memory of its own: the player interpolates it. */
export interface InterpolatedLine {
  /** Id of its number card. */
  readonly id: string;
  readonly weight: number;
  /** Indexes of its two anchors and of the skill that interpolates it. */
  readonly on: readonly [number, number, number];
}

export interface Course {
  readonly items: readonly Item[];
  readonly interpolated: readonly InterpolatedLine[];
  readonly newLinesADay: number | null;
}

/** By a line's priority, first to last: common practice, no source. */
const PRIORITY_WORTHS = [2, 1, 0.5] as const;

/**
 * The weight of a card on which no line depends, as a part of a line's. It is enough that no kind
 * is forgotten, and little enough that lines come first. Ours, tried in `npm run bench -- learners`.
 */
const BESIDE = 0.1;

/** What a first card waits for. */
const FIRST: readonly number[] = [];

export function courseOf(cards: readonly Card[], log: LogState, wish: Wish): Course {
  const { cards: own, workedOut } = learnedOf(cards, log, wish);
  const places = new Map(own.map(({ id }, n) => [id, n]));
  const patterns = new Map(
    [...new Set(cards.map(({ pattern }) => pattern))].map((pattern) => [
      pattern,
      wish.worth(pattern),
    ]),
  );
  const worth = ({ priority, pattern }: Card): number =>
    (PRIORITY_WORTHS[priority] ?? 1) * (patterns.get(pattern) ?? 1);
  const interpolated = cards.flatMap((card): InterpolatedLine[] => {
    const from = workedOut.get(card.id);
    const [a, b, skill] = from ? [...from.anchors, from.skill].map((id) => places.get(id)) : [];
    if (a === undefined || b === undefined || skill === undefined) return [];
    return [{ id: card.id, weight: worth(card), on: [a, b, skill] }];
  });
  const carried = weightsOn(interpolated, own.length);
  const lines = linesIn(own);
  const items = own.map((card, n): Item => {
    const weight = (card.kind === 'number' ? worth(card) : 0) + (carried[n] ?? 0);
    return {
      id: card.id,
      kind: card.kind,
      pattern: card.pattern,
      line: card.lineId,
      weight: weight > 0 ? weight : BESIDE * worth(card),
      after: card.after.length === 0 ? FIRST : card.after.flatMap((id) => places.get(id) ?? []),
      siblings: lines.get(card.lineId) ?? [n],
      shows: wish.meetFirst && isLineCard(card) && card.after.length === 0,
      open: wish.fits?.(card) ?? true,
    };
  });
  return { items, interpolated, newLinesADay: wish.newLinesADay };
}

/** An interpolated line shares its weight evenly among its two anchors and its skill. */
function weightsOn(interpolated: readonly InterpolatedLine[], count: number): Float64Array {
  const carried = new Float64Array(count);
  for (const { weight, on } of interpolated)
    for (const n of on) carried[n] = (carried[n] as number) + weight / on.length;
  return carried;
}

/** The indexes of the cards of each line. */
function linesIn(cards: readonly Card[]): ReadonlyMap<string, readonly number[]> {
  const lines = new Map<string, number[]>();
  for (const [n, { lineId }] of cards.entries()) {
    const line = lines.get(lineId);
    if (line) line.push(n);
    else lines.set(lineId, [n]);
  }
  return lines;
}
