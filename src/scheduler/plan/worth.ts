/**
 * The worth of asking an item of weight 1 at given prices: a stochastic dynamic program over
 * its memory (`grid.ts`), the days since its last answer and the days that are left. With
 * U(t) the best result from a step on and λ(t) the price of an answer on it,
 *
 *   wait(t)  = U(t + 1) with the days since the last answer grown
 *   ask(t)   = R · wait(t, after a right answer) + (1 − R) · wait(t, after a miss)
 *   U(t)     = wait(t) + (1 − m) · max(0, ask(t) − wait(t) − λ(t) · (2 − R)),   U(the day) = R
 *
 * because a miss is asked again the same day: 2 − R answers are expected. On a day that the player
 * misses, with chance m, nothing is asked.
 */

import { ageAt, type MemoryGrid, NODES, valueAt } from './grid.ts';
import type { Horizon } from './horizon.ts';

/** Part of days on which the player comes. Ours, so that a plan does not rely on its last day. */
const KEPT = 0.9;

/** The cost of an answer and of a first asking, by step, in weighted lines held. */
export interface Prices {
  readonly answer: Float64Array;
  /** Added to the answer's, because first askings a day are limited. */
  readonly first: Float64Array;
}

export interface Worth {
  /** By step, age and node: ask − wait, per expected answer. */
  readonly pull: Float64Array;
  /** By step: the same for an item never asked. */
  readonly firstPull: Float64Array;
}

/** Where each age is a step later, between two ages of the grid. */
interface Grown {
  readonly lower: Int32Array;
  readonly part: Float64Array;
}

/**
 * @param weight divides prices
 * @param oldest most days since the last answer of an item, as of today
 */
export function worthOf(
  grid: MemoryGrid,
  horizon: Horizon,
  prices: Prices,
  weight: number,
  oldest: number,
): Worth {
  const size = grid.ages.length * NODES;
  const { steps, offsets } = horizon;
  const pull = new Float64Array(steps * size);
  const firstPull = new Float64Array(steps);
  const best = Float64Array.from(grid.recall);
  const wait = new Float64Array(size);
  const answers = firstAnswers(grid);
  let [grown, by, begun] = [grownBy(grid, 0), 0, 0];
  for (let step = steps - 1; step >= 0; step--) {
    const days = (offsets[step + 1] as number) - (offsets[step] as number);
    if (days !== by) [grown, by] = [grownBy(grid, days), days];
    const known = agesUpTo(grid, oldest + (offsets[step] as number));
    age(best, wait, grown, known);
    const price = (prices.answer[step] as number) / weight;
    askAll(grid, wait, best, price, pull, step * size, known);
    const first = firstWorth(grid, wait);
    firstPull[step] = (first - begun) / answers;
    const cost = price * answers + (prices.first[step] as number) / weight;
    begun += KEPT * Math.max(0, first - begun - cost);
  }
  return { pull, firstPull };
}

/** Answers expected for a first asking. */
export function firstAnswers(grid: MemoryGrid): number {
  return grid.first.reduce((sum, { chance, answers }) => sum + chance * answers, 0);
}

function firstWorth(grid: MemoryGrid, wait: Float64Array): number {
  let sum = 0;
  for (const { chance, at, s, d } of grid.first) sum += chance * valueAt(wait, 0, at, s, d);
  return sum;
}

function age(best: Float64Array, wait: Float64Array, { lower, part }: Grown, known: number): void {
  for (let a = 0; a < known; a++) {
    const [from, p] = [(lower[a] as number) * NODES, part[a] as number];
    for (let n = 0; n < NODES; n++) {
      const low = best[from + n] as number;
      wait[a * NODES + n] = low + p * ((best[from + NODES + n] as number) - low);
    }
  }
}

/** Fills the step's pulls and its best results. An item asked today waits. */
function askAll(
  { recall, right, missed }: MemoryGrid,
  wait: Float64Array,
  best: Float64Array,
  price: number,
  pull: Float64Array,
  base: number,
  known: number,
): void {
  for (let n = 0; n < NODES; n++) best[n] = wait[n] as number;
  for (let cell = NODES; cell < known * NODES; cell++) {
    const r = recall[cell] as number;
    const hit = valueAt(
      wait,
      0,
      right.at[cell] as number,
      right.s[cell] as number,
      right.d[cell] as number,
    );
    const off = valueAt(
      wait,
      0,
      missed.at[cell] as number,
      missed.s[cell] as number,
      missed.d[cell] as number,
    );
    const kept = wait[cell] as number;
    const gain = off + r * (hit - off) - kept;
    pull[base + cell] = gain / (2 - r);
    best[cell] = kept + KEPT * Math.max(0, gain - price * (2 - r));
  }
}

/** How many ages of the grid it takes to read one between them. */
function agesUpTo(grid: MemoryGrid, days: number): number {
  return ageAt(grid.ages, days).at + 2;
}

function grownBy({ ages }: MemoryGrid, days: number): Grown {
  const lower = new Int32Array(ages.length);
  const part = new Float64Array(ages.length);
  ages.forEach((age, a) => {
    const { at, above } = ageAt(ages, age + days);
    lower[a] = at;
    part[a] = above;
  });
  return { lower, part };
}
