/** Ways to choose a day's questions from the answers so far and the published weights. */

import {
  DEFAULT_WEIGHTS,
  dayPlanFor,
  type Memory,
  type PlanRequest,
  PUBLISHED,
} from '../src/scheduler/index.ts';
import type { Course, Task } from './learners-chart.ts';

/** A task as the answers so far show it. */
export interface Seen {
  readonly task: Task;
  readonly memory: Memory;
  readonly firstDay: number;
  readonly lastDay: number;
  readonly off: boolean;
  /** Right answers in a row, on different days. */
  readonly inARow: number;
}

export interface Situation {
  readonly course: Course;
  readonly seen: ReadonlyMap<string, Seen>;
  readonly today: number;
  /** The day that counts. */
  readonly day: number;
  /** Answers a day, and how many of today's are left. */
  readonly budget: number;
  readonly left: number;
  readonly dice: () => number;
}

/** Ids to ask on a day, in order, as far as time allows. */
export type Way = (situation: Situation) => readonly string[];

/** Chosen for the lines known on the day. */
export function planned(newADay: number): Way {
  return (situation) => dayPlanFor(requestOf(situation, newADay)).ask;
}

export function requestOf(situation: Situation, newADay: number): PlanRequest {
  const { course, seen, today, day, budget, left } = situation;
  const lines = new Set(course.lines);
  return {
    items: course.tasks.map(({ id, after }) => {
      const { memory = null, lastDay = 0 } = seen.get(id) ?? {};
      return { id, weight: lines.has(id) ? 1 : 0, memory, lastDay, after, sibling: id };
    }),
    interpolated: course.interpolated,
    model: DEFAULT_WEIGHTS,
    today,
    day,
    answersADay: budget,
    newADay,
    answeredToday: budget - left,
    newToday: [...seen.values()].filter(({ firstDay }) => firstDay === today).length,
    counted: course.lines,
  };
}

/** Due cards, most forgotten first, then new lines: the rules when no day is set. */
export function dueOrder(targetRecall: number, newADay: number): Way {
  return inOrder(newADay, ({ memory, lastDay, off }) =>
    off ? lastDay : lastDay + PUBLISHED.interval(memory, targetRecall),
  );
}

/** Again after 1, 2, 4, 8 … days; after a miss, from the start. */
export function doubling(newADay: number): Way {
  return inOrder(newADay, ({ lastDay, off, inARow }) =>
    off ? lastDay : lastDay + 2 ** Math.max(0, inARow - 1),
  );
}

function inOrder(newADay: number, due: (seen: Seen) => number): Way {
  return ({ course, seen, today }) => {
    const hold = ({ memory, lastDay }: Seen) => PUBLISHED.recall(memory, today - lastDay);
    const old = [...seen.values()]
      .filter((one) => due(one) <= today && one.lastDay < today)
      .sort((a, b) => hold(a) - hold(b))
      .map(({ task }) => task.id);
    const fresh = course.tasks.filter(({ id }) => !seen.has(id)).map(({ id }) => id);
    const begun = [...seen.values()].filter(({ firstDay }) => firstDay === today).length;
    return [...old, ...fresh.slice(0, newADay - begun)];
  };
}

export const atRandom: Way = ({ course, seen, today, dice }) =>
  course.tasks
    .filter(({ id }) => seen.get(id)?.lastDay !== today)
    .map(({ id }) => ({ id, at: dice() }))
    .sort((a, b) => a.at - b.at)
    .map(({ id }) => id);
