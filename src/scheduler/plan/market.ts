/**
 * Finds what an answer costs on each day: the pull of the first item without room. A low price on a
 * later day lets items wait for it; then they crowd it, and its price rises. Each round computes
 * worths at given prices, runs courses by these worths and takes the prices that the courses show.
 * A few rounds settle near the prices at which every day is just full (tâtonnement, Walras 1874).
 */

import { classesOf } from './classes.ts';
import { createRunner, LEAST_PULL, type Room, type Runner, type Worths } from './course.ts';
import { oldestOf, type Planning, type Stock, weightsWithInterpolated } from './stock.ts';
import { type Prices, worthOf } from './worth.ts';

export interface Market {
  readonly prices: Prices;
  readonly worths: Worths;
}

/** An item's assumed hold before the first course. */
const HOPED = 0.9;

export function findPrices(
  planning: Planning,
  room: Room,
  rounds: number,
  dice: () => number,
  start: Prices = startOf(planning, room),
): Market {
  const runner = createRunner(planning);
  const runs = runsFor(planning, 120_000, 1, 5);
  let holds: Float64Array = new Float64Array(planning.stock.items.length).fill(HOPED);
  let prices = start;
  for (let round = 0; round < rounds; round++) {
    const worths = worthsAt(planning, prices, holds);
    const seen = watchRuns(planning, runner, worths, room, runs, dice);
    holds = seen.holds;
    prices = between(prices, seen.prices, 1 / (1.5 + 0.5 * round));
  }
  return { prices, worths: worthsAt(planning, prices, holds) };
}

/** The number of courses; larger plans get fewer. */
export function runsFor(
  { stock, horizon }: Planning,
  work: number,
  least: number,
  most: number,
): number {
  const size = Math.max(1, stock.items.length * horizon.steps);
  return Math.max(least, Math.min(most, Math.round(work / size)));
}

export function worthsAt(planning: Planning, prices: Prices, holds: Float64Array): Worths {
  const { stock, grid, horizon } = planning;
  const weights = weightsWithInterpolated(stock, holds);
  const classes = classesOf(weights);
  const byClass = classes.weights.map((weight) =>
    worthOf(grid, horizon, prices, weight, oldestOf(planning.stock)),
  );
  return { weights, classes, byClass };
}

/**
 * The prices to begin with, fitted to prices that had settled: they rise towards the day, where
 * answers win the most, and more steeply the fewer answers there are for an item. A wrong start
 * only costs rounds.
 */
function startOf({ horizon, stock }: Planning, room: Room): Prices {
  const items = Math.max(1, stock.items.length);
  const weight = sumOf(stock.weights) / items;
  const each = Math.max(0.1, sumOf(room.answers) / items);
  const early = 0.04 * Math.min(1, (3 / each) ** 1.5);
  const late = Math.max(early, Math.min(0.8, 1.1 / each ** 2));
  const { days, offsets, steps } = horizon;
  return {
    answer: Float64Array.from({ length: steps }, (_, step) => {
      const left = days - (offsets[step] as number);
      return Math.max(LEAST_PULL, weight * (early + (late - early) * Math.exp((1 - left) / 4)));
    }),
    first: new Float64Array(steps).fill(0.6 * leftOut(stock, sumOf(room.firsts))),
  };
}

/**
 * The weight of the first item for which no first asking is left; 0 if there are enough. Without it
 * the rounds let all of them wait while the days on which they could begin pass.
 */
function leftOut(stock: Stock, firsts: number): number {
  const hoped = new Float64Array(stock.items.length).fill(HOPED);
  const fresh = weightsWithInterpolated(stock, hoped).filter((_, n) => !stock.places[n]);
  return fresh.sort().at(-1 - firsts) ?? 0;
}

function sumOf(values: Float64Array): number {
  return values.reduce((sum, value) => sum + value, 0);
}

function watchRuns(
  { stock, horizon }: Planning,
  runner: Runner,
  worths: Worths,
  room: Room,
  runs: number,
  dice: () => number,
): { readonly holds: Float64Array; readonly prices: Prices } {
  const holds = new Float64Array(stock.items.length);
  const answer = new Float64Array(horizon.steps);
  const first = new Float64Array(horizon.steps);
  const { course } = runner;
  for (let n = 0; n < runs; n++) {
    runner.run(worths, room, dice);
    addPart(holds, course.holds, runs);
    addPart(answer, course.price, runs);
    addPart(first, course.firstPrice, runs);
  }
  return { holds, prices: { answer, first } };
}

export function addPart(sum: Float64Array, values: Float64Array, parts: number): void {
  for (let n = 0; n < sum.length; n++) sum[n] = (sum[n] as number) + (values[n] as number) / parts;
}

function between(from: Prices, to: Prices, part: number): Prices {
  return {
    answer: from.answer.map((price, n) => price + part * ((to.answer[n] as number) - price)),
    first: from.first.map((price, n) => price + part * ((to.first[n] as number) - price)),
  };
}
