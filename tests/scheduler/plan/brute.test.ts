import { describe, expect, it } from 'vitest';
import type { Outcome } from '../../../src/cards/index.ts';
import { type Memory, PUBLISHED, planFor } from '../../../src/scheduler/index.ts';
import { itemOf, requestOf, TODAY } from './requests.ts';

const DAYS = 10;

/** What an answer must win, and the planner's shares of right answers (`outcomes.ts`). */
const PRICE = 0.01;
const RIGHT: readonly (readonly [Outcome, number])[] = [
  ['rattled', 0.2],
  ['pocketed', 0.65],
  ['dead center', 0.15],
];

describe('the plan for a single line', () => {
  const cases = [
    { stability: 0.3, ago: 1 },
    { stability: 0.3, ago: 30 },
    { stability: 2, ago: 1 },
    { stability: 2, ago: 12 },
    { stability: 9, ago: 2 },
    { stability: 40, ago: 60 },
    { stability: 900, ago: 4 },
  ];

  it.each(cases)('is as good as the best of all schedules: $stability d, $ago d ago', (one) => {
    const { stability, ago } = one;
    const memory = { stability, difficulty: 4 };
    const reply = planFor(
      requestOf([itemOf('a', stability, ago)], { day: TODAY + DAYS, answersADay: 3 }),
    );
    const answers = reply.load.reduce((sum, { answers: few }) => sum + few, 0);
    const worth = reply.forecast.expected - PRICE * answers;
    const best = bestOf(memory, -ago, 0, 3);
    // The planner may ask more than three times, and its grid is coarse: two hundredths of a line.
    expect(Math.abs(worth - best)).toBeLessThan(0.02);
    const ask = reply.plan.ask.length > 0;
    const chosen = ask ? askedOn(memory, -ago, 0, 3) : bestOf(memory, -ago, 1, 3);
    expect(best - chosen).toBeLessThan(0.01);
  });
});

/** The greatest hold minus price over all schedules that ask so often from a day on. */
function bestOf(memory: Memory, last: number, from: number, left: number): number {
  let best = PUBLISHED.recall(memory, DAYS - last);
  if (left === 0) return best;
  for (let day = from; day < DAYS; day++) best = Math.max(best, askedOn(memory, last, day, left));
  return best;
}

/** Asks on a day, then follows the best schedule; a miss is asked again the same day. */
function askedOn(memory: Memory, last: number, day: number, left: number): number {
  const days = day - last;
  const recall = PUBLISHED.recall(memory, days);
  const after = (next: Memory): number => bestOf(next, day, day + 1, left - 1);
  const right = RIGHT.reduce(
    (sum, [outcome, share]) => sum + share * after(PUBLISHED.remember(memory, days, outcome)),
    0,
  );
  const off = PUBLISHED.remember(PUBLISHED.remember(memory, days, 'off'), 0, 'pocketed');
  return recall * right + (1 - recall) * (after(off) - PRICE) - PRICE;
}
