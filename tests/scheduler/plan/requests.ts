/** Made-up requests to the planner. */

import fc from 'fast-check';
import { DEFAULT_WEIGHTS, type PlanItem, type PlanRequest } from '../../../src/scheduler/index.ts';

export const TODAY = 20_000;

/** @param ago days since its last answer */
export function itemOf(id: string, stability?: number, ago = 0): PlanItem {
  const memory = stability === undefined ? null : { stability, difficulty: 4 };
  return { id, weight: 1, memory, lastDay: TODAY - ago, after: [], sibling: id };
}

export function requestOf(
  items: readonly PlanItem[],
  some: Partial<PlanRequest> = {},
): PlanRequest {
  return {
    items,
    interpolated: [],
    model: DEFAULT_WEIGHTS,
    today: TODAY,
    day: TODAY + 24,
    answersADay: 6,
    newADay: 4,
    answeredToday: 0,
    counted: items.map(({ id }) => id),
    ...some,
  };
}

const memoryArb = fc.record({
  stability: fc.double({ min: 0.001, max: 36_500, noNaN: true }),
  difficulty: fc.double({ min: 1, max: 10, noNaN: true }),
});

/** An item that may wait for those before it in the list, and share its day with one of them. */
const itemArb = fc.record({
  weight: fc.constantFrom(0, 0.3, 1, 2, 7),
  memory: fc.option(memoryArb),
  ago: fc.integer({ min: -3, max: 90 }),
  after: fc.array(fc.nat(30), { maxLength: 2 }),
  sibling: fc.nat(30),
  waits: fc.boolean(),
});

export const itemsArb: fc.Arbitrary<readonly PlanItem[]> = fc
  .array(itemArb, { maxLength: 24 })
  .map((items) =>
    items.map(({ weight, memory, ago, after, sibling, waits }, n) => ({
      id: `card ${n}`,
      weight,
      memory,
      lastDay: TODAY - ago,
      after: waits && n > 0 ? after.map((one) => `card ${one % n}`) : [],
      sibling: `line ${sibling % (n + 1)}`,
    })),
  );

export const requestArb: fc.Arbitrary<PlanRequest> = fc
  .record({
    items: itemsArb,
    days: fc.oneof(fc.integer({ min: 1, max: 40 }), fc.constantFrom(1, 2, 90, 400)),
    answersADay: fc.nat(12),
    newADay: fc.nat(6),
    answeredToday: fc.nat(4),
    worked: fc.array(fc.tuple(fc.nat(30), fc.nat(30), fc.nat(30)), { maxLength: 6 }),
  })
  .map(({ items, days, worked, ...terms }) => {
    const idAt = (n: number): string => items[n % items.length]?.id ?? 'gone';
    return requestOf(items, {
      ...terms,
      day: TODAY + days,
      interpolated: worked.map(([a, b, skill], n) => ({
        id: `hung ${n}`,
        weight: 1 + n,
        anchors: [idAt(a), idAt(b)],
        skill: idAt(skill),
      })),
      counted: items.filter((_, n) => n % 3 > 0).map(({ id }) => id),
    });
  });
