/**
 * Simulates the remaining days once, if the plan is followed. Each day asks the items with the
 * greatest pull while it has room, chance decides the answers, and a miss is asked again the same
 * day.
 */

import type { Classes } from './classes.ts';
import { ageAt, atAge, type Landing, landOn, type MemoryGrid, NODES } from './grid.ts';
import { createRanking, type Ranking } from './ranking.ts';
import { oldestOf, type Planning } from './stock.ts';
import { firstAnswers, type Worth } from './worth.ts';

/** Room for answers and for first askings on each step. */
export interface Room {
  readonly answers: Float64Array;
  readonly firsts: Float64Array;
}

/** How much asking is worth to each item. */
export interface Worths {
  readonly weights: Float64Array;
  readonly classes: Classes;
  readonly byClass: readonly Worth[];
}

/** The result of a course; the next course overwrites it. */
export interface Course {
  /** By item: hold on the day, and whether it was asked at all. */
  readonly holds: Float64Array;
  readonly asked: Uint8Array;
  /** By step. */
  readonly answers: Float64Array;
  /** By step, the pull of the first item without room, and what first askings cost on top. */
  readonly price: Float64Array;
  readonly firstPrice: Float64Array;
}

/** A card whose answer wins less than so much of a line is not asked. */
export const LEAST_PULL = 0.01;

/** Called before each step's answers, and on the day. */
export type Watch = (step: number, hold: (item: number) => number) => void;

export interface Runner {
  readonly course: Course;
  readonly run: (worths: Worths, room: Room, dice: () => number, watch?: Watch) => void;
}

interface Run {
  readonly nodes: Int16Array;
  /** Days from today, below 0 for past ones. */
  readonly last: Int32Array;
  readonly firstDay: Int32Array;
  readonly groupDay: Int32Array;
  readonly ageLow: Int32Array;
  readonly agePart: Float64Array;
  readonly ranking: Ranking;
  readonly firstCost: number;
}

const NEVER = 1 << 29;

export function createRunner(planning: Planning): Runner {
  const { stock, horizon } = planning;
  const count = stock.items.length;
  const course: Course = {
    holds: new Float64Array(count),
    asked: new Uint8Array(count),
    answers: new Float64Array(horizon.steps),
    price: new Float64Array(horizon.steps),
    firstPrice: new Float64Array(horizon.steps),
  };
  const run = runOf(planning);
  let unasked: Float64Array | null = null;
  return {
    course,
    run: (worths, room, dice, watch) => {
      begin(planning, run, course, dice);
      if (watch) unasked ??= holdsUnasked(planning);
      for (let step = 0; step < horizon.steps; step++) {
        const [offset, base] = [horizon.offsets[step] as number, step * count];
        watch?.(step, (n) =>
          course.asked[n] ? holdAt(planning.grid, run, n, offset) : (unasked?.[base + n] as number),
        );
        rank(planning, run, worths, step);
        serve(planning, run, course, room, step, dice);
      }
      for (let n = 0; n < count; n++) {
        course.holds[n] = course.asked[n]
          ? holdAt(planning.grid, run, n, horizon.days)
          : (stock.holds[n] as number);
      }
      watch?.(horizon.steps, (n) => course.holds[n] as number);
    },
  };
}

function runOf({ stock, grid, horizon }: Planning): Run {
  const count = stock.items.length;
  const oldest = horizon.days + oldestOf(stock);
  const ages = Array.from({ length: oldest + 1 }, (_, days) => ageAt(grid.ages, days));
  return {
    nodes: new Int16Array(count),
    last: new Int32Array(count),
    firstDay: new Int32Array(count),
    groupDay: new Int32Array(count),
    ageLow: Int32Array.from(ages, ({ at }) => at * NODES),
    agePart: Float64Array.from(ages, ({ above }) => above),
    ranking: createRanking(count),
    firstCost: firstAnswers(grid),
  };
}

function begin({ stock }: Planning, run: Run, course: Course, dice: () => number): void {
  course.asked.fill(0);
  course.answers.fill(0);
  run.groupDay.fill(-1);
  for (const group of stock.doneToday) run.groupDay[group] = 0;
  stock.places.forEach((place, n) => {
    run.nodes[n] = place ? landOn(place.at, place.s, place.d, dice) : -1;
    run.last[n] = -(stock.ages[n] as number);
    run.firstDay[n] = place ? (run.last[n] as number) : NEVER;
  });
}

function holdAt(grid: MemoryGrid, run: Run, n: number, offset: number): number {
  const node = run.nodes[n] as number;
  if (node < 0) return 0;
  return lerp(grid.recall, run, offset - (run.last[n] as number), node);
}

/** Holds by step and item if it is not asked: exact, where a course puts it on a node by chance. */
function holdsUnasked({ stock, grid, horizon }: Planning): Float64Array {
  const count = stock.items.length;
  const holds = new Float64Array(horizon.steps * count);
  for (let step = 0; step < horizon.steps; step++) {
    for (let n = 0; n < count; n++) {
      const place = stock.places[n];
      if (!place) continue;
      const days = (stock.ages[n] as number) + (horizon.offsets[step] as number);
      holds[step * count + n] =
        step === 0 ? (stock.holdsToday[n] as number) : atAge(grid, grid.recall, place, days);
    }
  }
  return holds;
}

function lerp(table: Float64Array, run: Run, days: number, node: number, base = 0): number {
  const cell = base + (run.ageLow[days] as number) + node;
  const low = table[cell] as number;
  return low + (run.agePart[days] as number) * ((table[cell + NODES] as number) - low);
}

/** Ranks the items that pull enough on a step. */
function rank(planning: Planning, run: Run, worths: Worths, step: number): void {
  const { stock, grid, horizon } = planning;
  const { weights, classes, byClass } = worths;
  const offset = horizon.offsets[step] as number;
  const base = step * grid.ages.length * NODES;
  run.ranking.clear();
  for (let n = 0; n < weights.length; n++) {
    const worth = byClass[classes.of[n] as number] as Worth;
    const node = run.nodes[n] as number;
    const days = offset - (run.last[n] as number);
    if (node < 0 ? !mayBegin(stock.after[n], run, offset) : days === 0) continue;
    const pull =
      (weights[n] as number) *
      (node < 0 ? (worth.firstPull[step] as number) : lerp(worth.pull, run, days, node, base));
    if (pull > LEAST_PULL) run.ranking.add(n, pull);
  }
}

function mayBegin(after: readonly number[] | null | undefined, run: Run, offset: number): boolean {
  if (!after) return false;
  for (const n of after) {
    if ((run.firstDay[n] as number) >= offset) return false;
  }
  return true;
}

function serve(
  planning: Planning,
  run: Run,
  course: Course,
  room: Room,
  step: number,
  dice: () => number,
): void {
  const { stock, grid, horizon } = planning;
  const offset = horizon.offsets[step] as number;
  let [used, begun, price, firstPull] = [0, 0, LEAST_PULL, 0];
  for (const n of run.ranking.sorted()) {
    const group = stock.group[n] as number;
    if (run.groupDay[group] === offset) continue;
    if (used + 1 > (room.answers[step] as number)) {
      price = run.ranking.pull(n);
      break;
    }
    const first = (run.nodes[n] as number) < 0;
    if (first && begun + 1 > (room.firsts[step] as number)) {
      firstPull ||= run.ranking.pull(n);
      continue;
    }
    if (first) begun++;
    used += first ? askFirst(grid, run, n, offset, dice) : askAgain(grid, run, n, offset, dice);
    run.groupDay[group] = offset;
    course.asked[n] = 1;
  }
  course.answers[step] = used;
  course.price[step] = price;
  course.firstPrice[step] = Math.max(0, firstPull - price) * run.firstCost;
}

/** @returns the answers it took */
function askFirst(
  { first }: MemoryGrid,
  run: Run,
  n: number,
  offset: number,
  dice: () => number,
): number {
  let chance = dice();
  let landing = first[0] as Landing;
  for (const one of first) {
    landing = one;
    chance -= one.chance;
    if (chance < 0) break;
  }
  run.nodes[n] = landOn(landing.at, landing.s, landing.d, dice);
  run.last[n] = offset;
  run.firstDay[n] = offset;
  return landing.answers;
}

function askAgain(
  grid: MemoryGrid,
  run: Run,
  n: number,
  offset: number,
  dice: () => number,
): number {
  const node = run.nodes[n] as number;
  const days = offset - (run.last[n] as number);
  const hit = dice() < lerp(grid.recall, run, days, node);
  const places = hit ? grid.right : grid.missed;
  const above = dice() < (run.agePart[days] as number) ? NODES : 0;
  const cell = (run.ageLow[days] as number) + above + node;
  const [at, s, d] = [places.at[cell], places.s[cell], places.d[cell]] as number[];
  run.nodes[n] = landOn(at as number, s as number, d as number, dice);
  run.last[n] = offset;
  return hit ? 1 : 2;
}
