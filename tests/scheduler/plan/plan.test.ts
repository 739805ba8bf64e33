import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  DEFAULT_WEIGHTS,
  dayPlanFor,
  type PlanItem,
  type PlanRequest,
  PUBLISHED,
  planFor,
} from '../../../src/scheduler/index.ts';
import { itemOf, requestArb, requestOf, TODAY } from './requests.ts';

/** Laws are tested on so many requests, always the same. */
const TRIED = { numRuns: 60, seed: 20_261_125 };

describe('a plan', () => {
  it('is the same for the same request, whatever is planned in between', () => {
    fc.assert(
      fc.property(requestArb, requestArb, (request, other) => {
        const first = planFor(request);
        planFor(other);
        expect(planFor(request)).toEqual(first);
      }),
      { ...TRIED, numRuns: 20 },
    );
  });

  it('never asks more than there is room for today', () => {
    fc.assert(
      fc.property(requestArb, (request) => {
        const { ask } = dayPlanFor(request);
        expect(ask.length).toBeLessThanOrEqual(
          Math.max(0, request.answersADay - request.answeredToday),
        );
        const firsts = ask.filter((id) => byId(request, id).memory === null);
        expect(firsts.length).toBeLessThanOrEqual(request.newADay);
      }),
      TRIED,
    );
  });

  it('is no longer after missed days', () => {
    fc.assert(
      fc.property(requestArb, fc.integer({ min: 1, max: 30 }), (request, missed) => {
        const later = { ...request, today: request.today + missed, answeredToday: 0 };
        const { ask } = dayPlanFor({ ...later, day: Math.max(request.day, later.today + 1) });
        expect(ask.length).toBeLessThanOrEqual(request.answersADay);
      }),
      TRIED,
    );
  });

  it('asks nothing before what it waits for was asked on an earlier day', () => {
    fc.assert(
      fc.property(requestArb, (request) => {
        for (const id of dayPlanFor(request).ask) {
          const { memory, after } = byId(request, id);
          if (memory) continue;
          for (const one of after) {
            const before = byId(request, one);
            expect(before.memory).not.toBeNull();
            expect(before.lastDay).toBeLessThan(request.today);
          }
        }
      }),
      TRIED,
    );
  });

  it('asks no item twice, none that was answered today, and no two siblings on one day', () => {
    fc.assert(
      fc.property(requestArb, (request) => {
        const groups = dayPlanFor(request).ask.map((id) => byId(request, id).sibling);
        expect(new Set(groups).size).toBe(groups.length);
        const done = request.items.filter(
          ({ memory, lastDay }) => memory && lastDay >= request.today,
        );
        for (const { sibling } of done) expect(groups).not.toContain(sibling);
      }),
      TRIED,
    );
  });

  it('is the day plan of its request', () => {
    fc.assert(
      fc.property(requestArb, (request) => {
        expect(planFor(request).plan).toEqual(dayPlanFor(request));
      }),
      { ...TRIED, numRuns: 10 },
    );
  });

  it('asks first what other lines need', () => {
    const items = ['a', 'b', 'c', 'skill'].map((id) => itemOf(id, 2, 10));
    const interpolated = ['x', 'y', 'z'].map((id) => ({
      id,
      weight: 1,
      anchors: ['b', 'c'] as const,
      skill: 'skill',
    }));
    const terms = { answersADay: 4, day: TODAY + 2, counted: ['a', 'b', 'c'] };
    expect(dayPlanFor(requestOf(items, { ...terms, interpolated })).ask.indexOf('a')).not.toBe(0);
    expect(dayPlanFor(requestOf(items, terms)).ask[0]).toBe('a');
  });

  it('asks an item of more weight before its equal', () => {
    const items = [itemOf('a', 2, 10), { ...itemOf('b', 2, 10), weight: 3 }, itemOf('c', 2, 10)];
    expect(planFor(requestOf(items, { answersADay: 2 })).plan.ask[0]).toBe('b');
  });

  it('asks nothing of no weight', () => {
    const items = [
      { ...itemOf('a', 2, 10), weight: 0 },
      { ...itemOf('b', 2, 10), weight: Number.NaN },
    ];
    expect(planFor(requestOf(items)).plan.ask).toEqual([]);
  });

  it('leaves out an item whose anchors are missing', () => {
    const items = [{ ...itemOf('skill'), after: ['gone'] }];
    expect(planFor(requestOf(items)).plan.ask).toEqual([]);
  });

  it.each([
    { ago: 0, asked: [] },
    { ago: 1, asked: ['skill'] },
  ])('asks a skill the day after its anchor: $ago d ago', ({ ago, asked }) => {
    const items = [itemOf('anchor', 900, ago), { ...itemOf('skill'), after: ['anchor'] }];
    expect(dayPlanFor(requestOf(items, { day: TODAY + 1 })).ask).toEqual(asked);
  });

  it('counts first askings so far today', () => {
    const items = ['a', 'b', 'c'].map((id) => itemOf(id));
    const terms = { day: TODAY + 2, newADay: 2 };
    expect(planFor(requestOf(items, terms)).plan.ask).toHaveLength(2);
    expect(planFor(requestOf(items, { ...terms, newToday: 1 })).plan.ask).toHaveLength(1);
  });

  it('asks on the eve what is not known', () => {
    const items = [itemOf('a', 1, 20), itemOf('b', 3000, 5)];
    expect(planFor(requestOf(items, { day: TODAY + 1 })).plan.ask).toEqual(['a']);
  });
});

describe('a plan without work', () => {
  it('of no items is 0 of 0', () => {
    const reply = planFor(requestOf([]));
    expect(reply.forecast).toEqual({ expected: 0, low: 0, high: 0, of: 0 });
    expect(reply).toMatchObject({ plan: { ask: [] }, enough: true, answersNeeded: 0, drop: [] });
  });

  it('asks nothing for a day that has come', () => {
    const reply = planFor(requestOf([itemOf('a', 5, 3), itemOf('b')], { day: TODAY }));
    expect(reply.plan.ask).toEqual([]);
    expect(reply.forecast.expected).toBeCloseTo(PUBLISHED.recall({ stability: 5 }, 3), 9);
    expect(reply.curve).toEqual([{ day: TODAY, held: reply.forecast.expected }]);
    expect(reply.load).toEqual([]);
    expect(reply.answersNeeded).toBeNull();
  });

  it('counts an answer from a clock that was ahead as today’s', () => {
    const reply = planFor(requestOf([itemOf('a', 5, -400)], { answersADay: 0 }));
    expect(reply.forecast.expected).toBeCloseTo(PUBLISHED.recall({ stability: 5 }, 24), 9);
    expect(reply.curve[0]?.held).toBeCloseTo(1, 9);
  });

  it('reads invalid numbers as 0', () => {
    const items = [itemOf('a', 5, 3), itemOf('b')];
    for (const wrong of [Number.NaN, -3, Number.NEGATIVE_INFINITY]) {
      const reply = planFor(requestOf(items, { answersADay: wrong, newADay: wrong }));
      expect(reply.plan.ask).toEqual([]);
      expect(reply.forecast.expected).toBeGreaterThan(0);
    }
    const boundless = planFor(requestOf(items, { answersADay: Number.POSITIVE_INFINITY }));
    expect(boundless.forecast.expected).toBeGreaterThan(1.5);
  });

  it('throws on invalid weights of memory', () => {
    expect(() => planFor(requestOf([], { model: DEFAULT_WEIGHTS.slice(1) }))).toThrow(RangeError);
  });
});

function byId(request: PlanRequest, id: string): PlanItem {
  const item = request.items.find((one) => one.id === id);
  if (!item) throw new Error(`no item ${id}`);
  return item;
}
