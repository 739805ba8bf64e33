/** The chooser on a log: the next step, what today brings, and when a card comes back. */

import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { eventsSince, isStep } from '../log/last-event.ts';
import type { LogState } from '../log/state.ts';
import { type Kernel, kernelOf } from '../memory/kernel.ts';
import { AHEAD, choose, countLeft, type Day, dayOf, isReady } from './choose.ts';
import { type Course, courseOf, type Wish } from './course.ts';
import type { ForecastRequest } from './forecast.ts';
import { isNewLine, type Standing, type State, stateOf, takeStep } from './state.ts';

/** Show a new line, or ask a card. */
export type NextStep =
  | { readonly type: 'meet'; readonly card: LineCard }
  | { readonly type: 'ask'; readonly card: Card };

/** What the chooser needs on a day. */
interface Situation {
  readonly course: Course;
  readonly state: State;
  readonly kernel: Kernel;
  readonly day: Day;
}

function situationOf(cards: readonly Card[], log: LogState, today: number, wish: Wish): Situation {
  const course = courseOf(cards, log, wish);
  const kernel = kernelOf(log.model.weights);
  const state = stateOf(course, cards, log, today);
  const day = dayOf(course, state, today, dayFor(wish, today), kernel);
  return { course, state, kernel, day };
}

/** Returns the day that counts; once it has come, one that is always AHEAD days away. */
export function dayFor({ day }: Pick<Wish, 'day'>, today: number): number {
  return day !== null && day > today ? day : today + AHEAD;
}

export interface Next {
  /** Null if today has nothing left. */
  readonly step: NextStep | null;
  /** How many cards today still has, at most one of each line and no more new lines than wanted. */
  readonly left: number;
}

/** A function of the log alone, so a reload returns to the same card. */
export function nextStep(cards: readonly Card[], log: LogState, today: number, wish: Wish): Next {
  const situation = situationOf(cards, log, today, wish);
  const { course, state, day } = situation;
  const next = choose(course, state, day);
  const left = countLeft(course, state, day);
  const id = course.items[next]?.id;
  const card = cards.find((one) => one.id === id);
  if (!card) return { step: null, left };
  const { stability, shown } = state.standings[next] as Standing;
  const moved = log.moved.get(card.id);
  const meets = moved
    ? wish.meetFirst && card.kind !== 'trust' && !moved.shown
    : stability === 0 && !shown && course.items[next]?.shows;
  const step: NextStep = meets && isLineCard(card) ? { type: 'meet', card } : { type: 'ask', card };
  return { step, left };
}

/**
 * Returns whether an answer that was given outside the daily quiz may count for a card: whether the
 * card might be asked today, however little that gains.
 */
export function mayCount(
  cards: readonly Card[],
  log: LogState,
  today: number,
  wish: Wish,
  id: string,
): boolean {
  const course = courseOf(cards, log, wish);
  const n = course.items.findIndex((item) => item.id === id);
  return n >= 0 && isReady(course, stateOf(course, cards, log, today), n, today);
}

/** What a day brings if every answer is right. */
export interface DayAhead {
  /** Cards to ask, in order. */
  readonly cards: readonly Card[];
  /** New lines among their lines. */
  readonly fresh: readonly LineCard[];
  /** Lines shown and cards asked. */
  readonly steps: number;
}

/** @param most steps that there is time for */
export function dayAhead(
  cards: readonly Card[],
  log: LogState,
  today: number,
  wish: Wish,
  most: number,
): DayAhead {
  const { course, state, kernel, day } = situationOf(cards, log, today, wish);
  const byId = new Map(cards.map((card) => [card.id, card]));
  const asked: Card[] = [];
  const fresh: LineCard[] = [];
  for (let steps = 0; steps < most; steps++) {
    const n = choose(course, state, day);
    const item = course.items[n];
    const card = byId.get(item?.id ?? '');
    if (!item || !card) return { cards: asked, fresh, steps };
    if (isLineCard(card) && isNewLine(item, state.standings[n] as Standing)) fresh.push(card);
    if (takeStep(course, state, n, today, kernel, () => true)) asked.push(card);
  }
  return { cards: asked, fresh, steps: most };
}

/** Returns how many steps of a day still count. */
export function stepsOn(log: LogState, day: number): number {
  return eventsSince(log, day).filter((event) => event.day === day && isStep(event)).length;
}

/** How far ahead the next question of a card is looked for, in days, and in days times items. */
const FARTHEST = 180;
const MOST_LOOKS = 30_000;

/**
 * Returns in how many days the chooser asks each of these cards again, if every answer is right and
 * no day is missed. A card that does not come back within the days that are looked at is left out.
 * @param steps a day
 */
export function daysUntilBack(
  cards: readonly Card[],
  log: LogState,
  today: number,
  wish: Wish,
  steps: number,
  ids: ReadonlySet<string>,
): ReadonlyMap<string, number> {
  const { course, state, kernel } = situationOf(cards, log, today, wish);
  const back = new Map<string, number>();
  const farthest = Math.min(FARTHEST, Math.floor(MOST_LOOKS / course.items.length));
  for (let days = 1; days <= farthest && back.size < ids.size; days++) {
    const on = today + days;
    const day = dayOf(course, state, on, dayFor(wish, on), kernel);
    for (let step = 0; step < steps; step++) {
      const n = choose(course, state, day);
      const id = course.items[n]?.id;
      if (id === undefined) break;
      const asked = takeStep(course, state, n, on, kernel, () => true);
      if (asked && ids.has(id) && !back.has(id)) back.set(id, days);
    }
  }
  return back;
}

export function forecastRequestOf(
  cards: readonly Card[],
  log: LogState,
  today: number,
  wish: Wish,
  stepsADay: number,
): ForecastRequest {
  const course = courseOf(cards, log, wish);
  return {
    course,
    state: stateOf(course, cards, log, today),
    trials: log.trials,
    weights: log.model.weights,
    today,
    day: dayFor(wish, today),
    rolling: wish.day === null || wish.day <= today,
    stepsADay,
    stepsDone: stepsOn(log, today),
  };
}
