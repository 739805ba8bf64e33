/** The chooser on a log: the next step, what today brings, and when a card comes back. */

import { type Card, isLineCard, type LineCard } from '../../cards/index.ts';
import { isStep } from '../log/last-event.ts';
import type { LogState } from '../log/state.ts';
import { type Kernel, kernelOf } from '../memory/kernel.ts';
import type { Memory } from '../memory/memory.ts';
import { AHEAD, choose, gainOf, gainsOn, leftOn } from './choose.ts';
import { type Course, courseOf, type Wish } from './course.ts';
import { type ForecastRequest, takeStep } from './forecast.ts';
import { isNewLine, NEVER, type Standing, type State, stateOf } from './state.ts';

/** Show a new line, or ask a card. */
export type NextStep =
  | { readonly type: 'meet'; readonly card: LineCard }
  | { readonly type: 'ask'; readonly card: Card };

/** What the chooser needs on a day. */
interface Situation {
  readonly course: Course;
  readonly state: State;
  readonly kernel: Kernel;
  readonly byId: ReadonlyMap<string, Card>;
  readonly gains: Float64Array;
}

function situationOf(cards: readonly Card[], log: LogState, today: number, wish: Wish): Situation {
  const course = courseOf(cards, log, wish);
  const kernel = kernelOf(log.model.weights);
  const state = stateOf(course, cards, log, today);
  const gains = gainsOn(course, state, today, dayFor(wish, today), kernel);
  return { course, state, kernel, byId: new Map(cards.map((card) => [card.id, card])), gains };
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
  const { course, state, byId, gains } = situation;
  const { next } = choose(course, state, today, gains);
  const left = leftOn(course, state, today, gains);
  const card = byId.get(course.items[next]?.id ?? '');
  if (!card) return { step: null, left };
  const { stability, shown } = state.standings[next] as Standing;
  const moved = log.moved.get(card.id);
  const meets = moved
    ? wish.meetFirst && card.kind !== 'trust' && !moved.shown
    : stability === 0 && !shown && course.items[next]?.shows;
  const step: NextStep = meets && isLineCard(card) ? { type: 'meet', card } : { type: 'ask', card };
  return { step, left };
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
  const { course, state, kernel, byId, gains } = situationOf(cards, log, today, wish);
  const asked: Card[] = [];
  const fresh: LineCard[] = [];
  for (let steps = 0; steps < most; steps++) {
    const { next: n } = choose(course, state, today, gains);
    const item = course.items[n];
    const card = byId.get(item?.id ?? '');
    if (!item || !card) return { cards: asked, fresh, steps };
    if (isLineCard(card) && isNewLine(item, state.standings[n] as Standing)) fresh.push(card);
    if (takeStep(course, state, n, today, kernel, () => true)) asked.push(card);
  }
  return { cards: asked, fresh, steps: most };
}

/** How many steps of a day still count. */
export function stepsOn(log: LogState, day: number): number {
  let steps = 0;
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events[n];
    if (!event || event.day < day) break;
    if (event.day === day && isStep(event) && !log.takenBack.has(event.id)) steps += 1;
  }
  return steps;
}

/** Nobody looks further ahead than this, days. */
const FARTHEST = 365;

/**
 * Returns a function that tells in how many days the chooser is expected to ask a card again: as
 * soon as asking it gains what the last question of tomorrow gains. The days count from the card's
 * last answer.
 * @param steps a day
 */
export function daysUntilBack(
  cards: readonly Card[],
  log: LogState,
  today: number,
  wish: Wish,
  steps: number,
): (id: string, memory: Memory) => number {
  const tomorrow = situationOf(cards, log, today + 1, wish);
  const least = leastGain(tomorrow, today + 1, steps);
  const { course, kernel } = tomorrow;
  const places = new Map(course.items.map(({ id }, n) => [id, n]));
  return (id, memory) => {
    const weight = course.items[places.get(id) ?? NEVER]?.weight ?? 0;
    for (let days = 1; days < FARTHEST; days = Math.ceil(1.1 * days)) {
      const left = dayFor(wish, today + days) - today - days;
      if (weight * gainOf(kernel, memory, days, left, 0) >= least) return days;
    }
    return FARTHEST;
  };
}

/**
 * Returns the least gain that a day has time for if every answer is right; 0 if it has time for all.
 * It leaves out numbers that moved, which are asked whatever they gain.
 */
function leastGain(
  { course, state, gains, kernel }: Situation,
  day: number,
  steps: number,
): number {
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step < steps; step++) {
    const { next: n } = choose(course, state, day, gains);
    if (n === NEVER) return 0;
    const { moved } = state.standings[n] as Standing;
    if (!moved) least = Math.min(least, gains[n] as number);
    takeStep(course, state, n, day, kernel, () => true);
  }
  return least;
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
