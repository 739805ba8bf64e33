/** A day's plan for many cards as the worker makes it, with forecast, load and time needed. */

import { DEFAULT_WEIGHTS, type PlanRequest, planFor } from '../src/scheduler/index.ts';

const DAY = 20_000;
const ROUNDS = 7;

export interface PlanRow {
  readonly items: number;
  readonly days: number;
  /** Median. */
  readonly ms: number;
}

export function benchPlans(): readonly PlanRow[] {
  return [
    { items: 60, days: 24, answersADay: 8 },
    { items: 2000, days: 60, answersADay: 100 },
    { items: 2000, days: 60, answersADay: 250 },
  ].map(({ items, days, answersADay }) => {
    const request = requestOf(items, days, answersADay);
    const times = Array.from({ length: ROUNDS }, () => {
      const start = performance.now();
      planFor(request);
      return performance.now() - start;
    }).sort((a, b) => a - b);
    return { items, days, ms: times[Math.floor(ROUNDS / 2)] ?? Number.NaN };
  });
}

/** Half of the cards have been known for a while; there are three weights. */
function requestOf(items: number, days: number, answersADay: number): PlanRequest {
  const ids = Array.from({ length: items }, (_, n) => `card ${n}`);
  return {
    items: ids.map((id, n) => ({
      id,
      weight: [1, 2, 0.5][n % 3] ?? 1,
      memory: n % 2 === 0 ? { stability: 0.3 + (n % 97), difficulty: 1 + (n % 10) } : null,
      lastDay: DAY - 1 - (n % 30),
      after: [],
      sibling: id,
    })),
    interpolated: [],
    model: DEFAULT_WEIGHTS,
    today: DAY,
    day: DAY + days,
    answersADay,
    newADay: Math.ceil(items / days),
    answeredToday: 0,
    counted: ids,
  };
}
