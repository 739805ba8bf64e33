/**
 * The questions of a drill. The nth question depends only on the drill's code, the chart and n. It
 * does not depend on the player, the day or the answers, so that two players can compare results.
 */

import {
  type Asker,
  type Card,
  cardsOf,
  createDice,
  hashOf,
  instancesOf,
  isLineCard,
  type Kind,
  type Question,
  questionOf,
} from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import { MIRRORS, type Mirror, SPEEDS } from '../../table/index.ts';
import type { ShownCard } from '../stage/phase.ts';
import type { DrillSpec } from './code.ts';

/**
 * The most questions that a drill without a fixed number can ask. Each question depends on all
 * before it, so their number needs a bound.
 */
export const MOST_ASKED = 1000;

export interface Drill {
  readonly spec: DrillSpec;
  /** The cards that the drill draws from; empty if the choice leaves nothing to ask. */
  readonly cards: readonly Card[];
  /**
   * Returns question n, counted from 0, with its picture.
   * @returns null past the end, or if nothing can be asked
   */
  readonly at: (n: number, pictures: 'all' | 'one') => ShownCard | null;
}

export function createDrill(chart: Chart, spec: DrillSpec): Drill {
  const cards = drillCards(chart, spec);
  const speeds = spec.speeds === 'all' ? SPEEDS : (['medium'] as const);
  const asker = { chart, tolerance: spec.tolerance, speeds };
  const order = createOrder(cards, spec.seed);
  const instance = createInstances(asker, spec.seed);
  return {
    spec,
    cards,
    at: (n, pictures) => {
      const last = spec.count ?? MOST_ASKED;
      if (!Number.isInteger(n) || n < 0 || n >= last || cards.length === 0) return null;
      const { card, time } = order(n);
      for (const one of withSubstitutes(cards, card)) {
        const question = instance(one, time);
        if (question) return { card: one, question, mirror: mirrorOf(spec.seed, n, pictures) };
      }
      return null;
    },
  };
}

/**
 * Returns a function that gives the instance of a card for the nth time it comes up, counted from
 * 0. The instances come in the drill's own order. No instance repeats before all have been asked.
 */
function createInstances(
  asker: Asker,
  seed: number,
): (card: Card, time: number) => Question | null {
  const made = new Map<string, { readonly list: Question[]; readonly more: Iterator<Question> }>();
  return (card, time) => {
    if (isLineCard(card)) return questionOf(asker, card, seed);
    const { list, more } = made.get(card.id) ?? {
      list: [],
      more: instancesOf(asker, card, hashOf(`${seed} ${card.id}`)),
    };
    made.set(card.id, { list, more });
    while (list.length <= time) {
      const next = more.next();
      if (next.done) break;
      list.push(next.value);
    }
    return list[time % list.length] ?? null;
  };
}

/**
 * Returns the cards that fit the choice. They are made with the drill's tolerance, which decides
 * where the anchors are.
 */
export function drillCards(
  chart: Chart,
  { patterns, zones, kinds, tolerance }: Omit<DrillSpec, 'seed' | 'count' | 'print'>,
): readonly Card[] {
  return cardsOf(chart, tolerance).filter(
    (card) =>
      patterns.includes(card.pattern) && zones.includes(card.zone) && kinds.includes(card.kind),
  );
}

function mirrorOf(seed: number, n: number, pictures: 'all' | 'one'): Mirror {
  if (pictures === 'one') return MIRRORS[0] as Mirror;
  return createDice(hashOf(`${seed} ${n} picture`)).pick(MIRRORS);
}

/**
 * Returns a card, followed by its substitutes in case it has no instance. The substitutes most
 * similar in pattern and kind come first.
 */
function withSubstitutes(cards: readonly Card[], card: Card): readonly Card[] {
  const near = (one: Card): number =>
    2 * Number(one.pattern === card.pattern) + Number(one.kind === card.kind);
  const others = cards.filter((one) => one !== card).sort((a, b) => near(b) - near(a));
  return [card, ...others];
}

/** A card, and how many times it has come up before. */
interface Turn {
  readonly card: Card;
  readonly time: number;
}

/**
 * Returns a function that gives the card of question n. Kinds take turns; so do patterns, and the
 * cards within a pattern. No pattern comes twice in a row if there is a different one, even if a
 * kind has to wait for that.
 */
function createOrder(cards: readonly Card[], seed: number): (n: number) => Turn {
  const dice = createDice(hashOf(`${seed} order`));
  const kinds = [...new Set(cards.map(({ kind }) => kind))];
  const turns: Turn[] = [];
  const used = new Map<string, number>();
  let waiting: readonly Kind[] = [];
  const addTurn = (): void => {
    if (waiting.length === 0) waiting = dice.shuffle(kinds);
    const pool = otherPatterns(cards, turns.at(-1)?.card);
    const has = (kind: Kind) => pool.some((card) => card.kind === kind);
    const kind = waiting.find(has) ?? dice.pick(kinds.filter(has));
    waiting = waiting.filter((one) => one !== kind);
    const ofKind = pool.filter((card) => card.kind === kind);
    const { pattern } = dice.pick(leastUsed(used, ofKind, (card) => card.pattern));
    const ofPattern = ofKind.filter((card) => card.pattern === pattern);
    const card = dice.pick(leastUsed(used, ofPattern, ({ id }) => id));
    turns.push({ card, time: used.get(card.id) ?? 0 });
    for (const key of [card.pattern, card.id]) used.set(key, (used.get(key) ?? 0) + 1);
  };
  return (n) => {
    while (turns.length <= n) addTurn();
    return turns[n] as Turn;
  };
}

/**
 * Returns the cards whose pattern differs from that of the last card, or all cards if there is only
 * one pattern.
 */
function otherPatterns(cards: readonly Card[], last: Card | undefined): readonly Card[] {
  const others = cards.filter(({ pattern }) => pattern !== last?.pattern);
  return others.length > 0 ? others : cards;
}

/** Returns the items of a list that were used the fewest times. */
function leastUsed<T>(
  used: ReadonlyMap<string, number>,
  list: readonly T[],
  key: (one: T) => string,
): readonly T[] {
  const counts = list.map((one) => used.get(key(one)) ?? 0);
  const least = Math.min(...counts);
  return list.filter((_, n) => counts[n] === least);
}
