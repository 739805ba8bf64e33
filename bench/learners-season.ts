/** Plays one player's days before the day that counts. */

import type { Outcome } from '../src/cards/index.ts';
import { type Memory, PUBLISHED } from '../src/scheduler/index.ts';
import type { Course, Task } from './learners-chart.ts';
import type { Player } from './learners-player.ts';
import type { Seen, Way } from './learners-ways.ts';

export interface Season {
  readonly answers: number;
  /** Lines truly known on the day: the sum of true recalls. */
  readonly held: number;
}

/** Other questions, if any, before a missed one comes again. */
const APART = 2;

/** A question missed so often in a day waits for the next day. */
const ENOUGH_MISSES = 3;

const FIRST_DAY = 20_000;

export function playSeason(
  player: Player,
  course: Course,
  way: Way,
  days: number,
  budget: number,
): Season {
  const { seen, ask, hold } = createHead(player, course);
  const day = FIRST_DAY + days;
  let answers = 0;
  for (let today = FIRST_DAY; today < day; today++) {
    if (player.missed[today - FIRST_DAY]) continue;
    let left = budget;
    while (left > 0) {
      const situation = { course, seen, today, day, budget, left, dice: player.dice };
      const used = playDay(way(situation), left, (id) => ask(id, today));
      if (used === 0) break;
      left -= used;
    }
    answers += budget - left;
  }
  const own = course.lines.reduce((sum, id) => sum + hold(id, day), 0);
  const interpolated = course.interpolated.reduce(
    (sum, { anchors: [a, b], skill }) => sum + hold(a, day) * hold(b, day) * hold(skill, day),
    0,
  );
  return { answers, held: own + interpolated };
}

interface Head {
  /** The tasks as the answers so far show them. */
  readonly seen: ReadonlyMap<string, Seen>;
  /** @returns was the answer right */
  readonly ask: (id: string, today: number) => boolean;
  /** True recall on a day. */
  readonly hold: (id: string, day: number) => number;
}

/** What a player truly remembers, and what the answers reveal of it. */
function createHead(player: Player, course: Course): Head {
  const tasks = new Map(course.tasks.map((task) => [task.id, task]));
  const seen = new Map<string, Seen>();
  const truths = new Map<string, { readonly memory: Memory; readonly day: number }>();
  return {
    seen,
    ask: (id, today) => {
      const truth = truths.get(id);
      const days = truth ? today - truth.day : 0;
      const outcome = player.answer(truth?.memory ?? null, days);
      const memory = player.model.remember(truth?.memory ?? null, days, outcome);
      truths.set(id, { memory, day: today });
      const task = tasks.get(id);
      if (!task) throw new Error(`no such task: ${id}`);
      seen.set(id, seenAfter(task, seen.get(id), today, outcome));
      return outcome !== 'off';
    },
    hold: (id, day) => {
      const truth = truths.get(id);
      return truth ? player.model.recall(truth.memory, day - truth.day) : 0;
    },
  };
}

function seenAfter(task: Task, before: Seen | undefined, today: number, outcome: Outcome): Seen {
  const since = before ? today - before.lastDay : 0;
  const inARow = before?.inARow ?? 0;
  return {
    task,
    memory: PUBLISHED.remember(before?.memory ?? null, since, outcome),
    firstDay: before?.firstDay ?? today,
    lastDay: today,
    off: outcome === 'off',
    inARow: outcome === 'off' ? 0 : inARow + (since > 0 || inARow === 0 ? 1 : 0),
  };
}

/**
 * Asks a day's list while time remains; missed questions come again a little later.
 * @returns the number of answers
 */
function playDay(list: readonly string[], most: number, ask: (id: string) => boolean): number {
  const waiting = [...list];
  const misses = new Map<string, number>();
  for (let used = 0; used < most; used++) {
    const id = waiting.shift();
    if (id === undefined) return used;
    if (ask(id)) continue;
    const times = (misses.get(id) ?? 0) + 1;
    misses.set(id, times);
    if (times < ENOUGH_MISSES) waiting.splice(APART, 0, id);
  }
  return most;
}
