/**
 * Ways to choose, from the answers so far and the published weights. Each ranks the items of a day;
 * prerequisites, siblings and second tries are the same for all (`choose`).
 */

import { isSkill } from '../../src/cards/index.ts';
import { AHEAD, choose, dayOf } from '../../src/scheduler/choose/choose.ts';
import type { Course, Item } from '../../src/scheduler/choose/course.ts';
import { playerOf } from '../../src/scheduler/choose/player.ts';
import { NEVER, type Standing, type State } from '../../src/scheduler/choose/state.ts';
import { DEFAULT_WEIGHTS } from '../../src/scheduler/index.ts';
import type { Trials } from '../../src/scheduler/log/trials.ts';
import { type Kernel, kernelOf } from '../../src/scheduler/memory/kernel.ts';

export interface Situation {
  readonly course: Course;
  readonly state: State;
  readonly today: number;
  /** The day that counts; null if none is set. */
  readonly day: number | null;
  readonly stepsADay: number;
  readonly trials: Trials;
  readonly dice: () => number;
}

/** Called when a day begins. Returns a function that gives the next item, or NEVER. */
export type Way = (situation: Situation) => () => number;

const KERNEL = kernelOf(DEFAULT_WEIGHTS);

/** New lines, skills, and windows and verdicts a day: how the app set due order. */
const NEW_LINES = 6;
const NEW_SKILLS = 2;
const NEW_OTHERS = 12;
const TARGET = 0.9;

export const oneStepGain: Way = (situation) => {
  const { course, state, today, day } = situation;
  const aim = day !== null && day > today ? day : today + AHEAD;
  const ahead = dayOf(course, state, today, aim, KERNEL);
  return () => choose(course, state, ahead);
};

/** The same, but memory is taken to last as long as the player's answers say. */
export const withLearnedFactor: Way = (situation) => {
  const { course, state, trials, today, day } = situation;
  const aim = day !== null && day > today ? day : today + AHEAD;
  const { fadings } = playerOf(trials, KERNEL, today);
  const logs = fadings.map(({ chance, factor }) => chance * Math.log(factor));
  const factor = Math.exp(logs.reduce((sum, one) => sum + one, 0));
  const kernel: Kernel = {
    ...KERNEL,
    recall: (stability, days) => KERNEL.recall(factor * stability, days),
  };
  const ahead = dayOf(course, state, today, aim, kernel);
  return () => choose(course, state, ahead);
};

/** Everything whose recall has fallen to the target, most forgotten first, then new lines. */
export const dueOrder: Way = (situation) => ranked(situation, dueGain, true);

/** The same, but new lines come before what is due. */
export const newLinesFirst: Way = (situation) =>
  ranked(situation, (standing, today) => (isNew(standing) ? 4 : dueGain(standing, today)), true);

/** Whatever is most forgotten, due or not; new lines count as forgotten. */
export const lowestRecall: Way = (situation) =>
  ranked(situation, (standing, today) => 1.001 - (isNew(standing) ? 0 : recallOf(standing, today)));

export const atRandom: Way = (situation) => ranked(situation, () => 0.7 + 0.3 * situation.dice());

function dueGain(standing: Standing, today: number): number {
  if (isNew(standing)) return 0.01;
  const recall = recallOf(standing, today);
  return recall <= TARGET ? 2 - recall : 0;
}

/** @param limited whether first askings a day have the app's old limits */
function ranked(
  { course, state, today }: Situation,
  rank: (standing: Standing, today: number) => number,
  limited = false,
): () => number {
  const wanted = limited ? { ...course, newLinesADay: NEW_LINES } : course;
  const begun = limited ? firstsOf(course, state, today) : null;
  const gains = Float64Array.from(course.items, (_, n) => {
    const standing = state.standings[n] as Standing;
    return begun && isNew(standing) && !begun.has(n) ? 0 : rank(standing, today);
  });
  const order = [...gains.keys()].sort((a, b) => (gains[b] ?? 0) - (gains[a] ?? 0));
  return () => choose(wanted, state, { today, gains, order, steps: state.steps });
}

/** The items that may be asked for the first time today, in the order of the cards. */
function firstsOf({ items }: Course, { standings }: State, today: number): ReadonlySet<number> {
  const room = { skill: NEW_SKILLS, other: NEW_OTHERS };
  const isKnown = (n: number): boolean => {
    const { firstDay, off } = standings[n] as Standing;
    return firstDay !== NEVER && firstDay < today && !off;
  };
  const may = (item: Item, n: number): boolean => {
    if (item.kind === 'number') return true;
    if (!isNew(standings[n] as Standing) || !item.after.every(isKnown)) return false;
    const limit = isSkill(item.kind) ? 'skill' : 'other';
    room[limit] -= 1;
    return room[limit] >= 0;
  };
  return new Set(items.flatMap((item, n) => (may(item, n) ? [n] : [])));
}

function isNew({ stability }: Standing): boolean {
  return stability === 0;
}

function recallOf({ stability, lastDay }: Standing, today: number): number {
  return KERNEL.recall(stability, today - lastDay);
}
