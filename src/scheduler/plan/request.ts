/** What a plan is made from: the cards that are asked, what each is worth, and what is remembered. */

import type { Card, Kind } from '../../cards/index.ts';
import { isStep, type LogState } from '../log/log.ts';
import { learnedOf } from '../queue/learned.ts';
import type { QueueSettings } from '../queue/queue.ts';
import type { PlanItem, PlanRequest } from './plan.ts';

/** What the player wants by when. */
export interface PlanWish {
  /** The day that counts, a study-day. */
  readonly day: number;
  readonly answersADay: number;
  /** How much a pattern counts: by how often it comes up. */
  readonly worth: (pattern: Card['pattern']) => number;
}

/** A line's number is the line; the rest is worth a part of it: common practice, no source. */
const WORTHS: Readonly<Record<Kind, number>> = {
  number: 1,
  window: 0.4,
  trust: 0.2,
  arrival: 0.1,
  'in between': 0.1,
  'rail ball': 0.1,
  'off the rail': 0.1,
};

/** By a line's priority, first to last: common practice, no source. */
const PRIORITY_WORTHS = [2, 1, 0.5] as const;

/** First askings a day for each new line a day: its number, and as much again for all the rest. */
const FIRSTS_A_LINE = 2;

export function planRequestOf(
  cards: readonly Card[],
  log: LogState,
  today: number,
  settings: QueueSettings,
  wish: PlanWish,
): PlanRequest {
  const { cards: own, workedOut } = learnedOf(cards, log, settings);
  const worth = (card: Card): number =>
    WORTHS[card.kind] * (PRIORITY_WORTHS[card.priority] ?? 1) * wish.worth(card.pattern);
  const lines = own.filter((card) => card.kind === 'number');
  return {
    items: own.map((card) => itemOf(card, log, worth(card))),
    hung: cards.flatMap((card) => {
      const hung = workedOut.get(card.id);
      return hung ? [{ id: card.id, weight: worth(card), ...hung }] : [];
    }),
    model: log.model.weights,
    today,
    day: wish.day,
    answersADay: wish.answersADay,
    newADay: FIRSTS_A_LINE * settings.newLinesPerDay,
    answeredToday: stepsOn(log, today).length,
    newToday: own.filter(({ id }) => log.memories.get(id)?.firstDay === today).length,
    counted: lines.map(({ id }) => id),
  };
}

function itemOf({ id, after, lineId }: Card, log: LogState, weight: number): PlanItem {
  const { stability, difficulty, lastDay } = log.memories.get(id) ?? NEVER;
  const memory = log.memories.has(id) ? { stability, difficulty } : null;
  return { id, weight, memory, lastDay, after, sibling: lineId };
}

const NEVER = { stability: 0, difficulty: 0, lastDay: 0 };

/** What was shown on a day, of what still counts. */
function stepsOn(log: LogState, day: number) {
  const steps = [];
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events.at(n);
    if (!event || event.day < day) break;
    if (event.day === day && isStep(event) && !log.takenBack.has(event.id)) steps.push(event);
  }
  return steps;
}
