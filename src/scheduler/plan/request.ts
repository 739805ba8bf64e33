/** A request to the planner: the cards that are asked, their worth and their memory. */

import type { Card, Kind } from '../../cards/index.ts';
import { isStep } from '../log/last-event.ts';
import type { LogState } from '../log/state.ts';
import type { Memory, MemoryModel } from '../memory/memory.ts';
import { learnedOf } from '../queue/learned.ts';
import type { QueueSettings } from '../queue/queue.ts';

export interface PlanItem {
  readonly id: string;
  readonly weight: number;
  readonly memory: Memory | null;
  /** Study-day of the last answer; meaningless if memory is null. */
  readonly lastDay: number;
  /** Ids that must have been right before it may be asked for the first time. */
  readonly after: readonly string[];
  /** Items of one sibling group are asked on different days. */
  readonly sibling: string;
}

/** A line without a memory of its own: worked out between two anchors. */
export interface InterpolatedLine {
  /** The id of its number card. */
  readonly id: string;
  readonly weight: number;
  /** Number cards of its two anchors. */
  readonly anchors: readonly [string, string];
  /** The in-between skill that works it out. */
  readonly skill: string;
}

export interface PlanRequest {
  readonly items: readonly PlanItem[];
  readonly interpolated: readonly InterpolatedLine[];
  readonly model: MemoryModel['weights'];
  readonly today: number;
  /** The day that counts: a study-day after today, or nothing is asked. */
  readonly day: number;
  readonly answersADay: number;
  /** The most items that may be asked for the first time on one day. */
  readonly newADay: number;
  readonly answeredToday: number;
  /** First askings today so far; 0 if left out. */
  readonly newToday?: number;
  /** Ids of items that count as lines: number cards. Interpolated lines count besides. */
  readonly counted: readonly string[];
}

/** The player's wish: which day counts, and how much time there is. */
export interface PlanWish {
  /** The day that counts, a study-day. */
  readonly day: number;
  readonly answersADay: number;
  /** How much a pattern counts: by how often it comes up. */
  readonly worth: (pattern: Card['pattern']) => number;
}

/** A number counts as its line, the rest as a part of it: common practice, no source. */
const WORTHS: Readonly<Record<Kind, number>> = {
  number: 1,
  window: 0.4,
  trust: 0.2,
  arrival: 0.1,
  'in between': 0.1,
  'rail ball': 0.1,
  'off the rail': 0.1,
};

/** By a line's priority, from the first: common practice, no source. */
const PRIORITY_WORTHS = [2, 1, 0.5] as const;

/** First askings a day for each new line a day: its number, and one for all the rest. */
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
    interpolated: cards.flatMap((card) => {
      const interpolation = workedOut.get(card.id);
      return interpolation ? [{ id: card.id, weight: worth(card), ...interpolation }] : [];
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

/** The steps of a day that still count. */
function stepsOn(log: LogState, day: number) {
  const steps = [];
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events[n];
    if (!event || event.day < day) break;
    if (event.day === day && isStep(event) && !log.takenBack.has(event.id)) steps.push(event);
  }
  return steps;
}
