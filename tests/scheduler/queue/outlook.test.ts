import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, KINDS } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  agendaFor,
  comingDue,
  foldLog,
  forecastDecay,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';
import { answer, base, said } from '../making.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const numbers = cards.filter(({ kind }) => kind === 'number');
const [a, b, c] = numbers as [Card, Card, Card];
/** No new lines, so only answered cards count. */
const settings: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 0,
  meetFirst: true,
  kinds: KINDS,
};

/**
 * FSRS-6 as published: a first answer at grade 3 leaves S = w2, in days (trade.md §6; w2 = 2.3065).
 */
const FIRST = 2.3065;
/** R(t) = (1 + F·t/S)^−w20 with F = 0.9^(−1/w20) − 1 and w20 = 0.1542, so that R(S) = 0.9. */
function recallAfter(days: number): number {
  const decay = 0.1542;
  const factor = 0.9 ** (-1 / decay) - 1;
  return (1 + (factor * days) / FIRST) ** -decay;
}

describe('lines known without further answers', () => {
  const log = foldLog([answer(1, b.id, 98), answer(2, a.id, 100)]);

  it('are the sum of each line’s recall, by the published formula', () => {
    const decay = forecastDecay(numbers, log, 100, 14);
    expect(decay).toHaveLength(15);
    for (const [n, { day, held }] of decay.entries()) {
      expect(day).toBe(100 + n);
      expect(held).toBeCloseTo(recallAfter(n) + recallAfter(n + 2), 4);
    }
  });

  it('fall from day to day', () => {
    const held = forecastDecay(numbers, log, 100, 60).map((one) => one.held);
    for (const [n, now] of held.entries()) expect(now).toBeLessThanOrEqual(held[n - 1] ?? 2);
  });

  it('are the same for every seventh day only', () => {
    const weekly = forecastDecay(numbers, log, 100, 30, 7);
    expect(weekly.map(({ day }) => day)).toEqual([100, 107, 114, 121, 128]);
    const daily = forecastDecay(numbers, log, 100, 30);
    for (const one of weekly) expect(daily).toContainEqual(one);
  });

  it('are none where nothing was answered', () => {
    expect(forecastDecay(numbers, foldLog([]), 100, 3).map(({ held }) => held)).toEqual([
      0, 0, 0, 0,
    ]);
  });
});

describe('a card that falls due', () => {
  // Only numbers: a window is asked for the first time after its number was right.
  const loads = (...given: Parameters<typeof foldLog>[0]) =>
    comingDue(numbers, foldLog(given), 100, 7, settings).map(({ answers }) => answers);

  it('is counted on the day on which its recall has fallen to the target', () => {
    // S = 2.3065 days to 0.9: rounded, two days after the answer.
    expect(loads(answer(1, a.id, 100))).toEqual([0, 0, 1, 0, 0, 0, 0]);
    expect(loads(answer(1, b.id, 99), answer(2, a.id, 100))).toEqual([0, 1, 1, 0, 0, 0, 0]);
  });

  it('is counted today if it fell due earlier', () => {
    expect(loads(answer(1, a.id, 80), answer(2, c.id, 98))).toEqual([2, 0, 0, 0, 0, 0, 0]);
  });

  it('is not counted if it is due later, set aside, or of a kind that is not asked', () => {
    expect(comingDue(numbers, foldLog([answer(1, a.id, 100)]), 100, 2, settings)).toEqual([
      { day: 100, answers: 0 },
      { day: 101, answers: 0 },
    ]);
    const aside = said(base(2, 100), 'set aside', { line: a.lineId, aside: true });
    expect(loads(answer(1, a.id, 100), aside)).toEqual([0, 0, 0, 0, 0, 0, 0]);
    const log = foldLog([answer(1, a.id, 100)]);
    const none = comingDue(cards, log, 100, 7, { ...settings, kinds: ['window'] });
    expect(none.every(({ answers }) => answers === 0)).toBe(true);
  });

  it('today is one of the agenda’s', () => {
    const log = foldLog([answer(1, a.id, 90), answer(2, b.id, 95)]);
    const more = { ...settings, newLinesPerDay: 6 };
    const { due, fresh } = agendaFor(cards, log, 100, more);
    expect(comingDue(cards, log, 100, 7, more)[0]?.answers).toBe(due.length + fresh.length);
  });

  it('is counted once, on some day', () => {
    const some = fc.uniqueArray(
      fc.record({ at: fc.nat(numbers.length - 1), day: fc.integer({ min: 60, max: 100 }) }),
      { selector: ({ at }) => at, maxLength: 30 },
    );
    fc.assert(
      fc.property(some, (given) => {
        const ordered = [...given].sort((one, other) => one.day - other.day);
        const log = foldLog(ordered.map(({ at, day }, n) => answer(n, numbers[at]?.id ?? '', day)));
        const load = comingDue(numbers, log, 100, 400, settings);
        expect(load.reduce((sum, { answers }) => sum + answers, 0)).toBe(given.length);
      }),
      { seed: 3, numRuns: 100 },
    );
  });
});
