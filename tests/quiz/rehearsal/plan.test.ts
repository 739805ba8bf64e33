import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Card, cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, lastRevision, toDecimal } from '../../../src/charts/index.ts';
import {
  planRehearsal,
  rehearsable,
  specOfFinished,
  useOf,
  weigh,
} from '../../../src/quiz/index.ts';
import type { Weighed } from '../../../src/quiz/rehearsal/plan.ts';
import { type CardMemory, foldLog, type LogState } from '../../../src/scheduler/index.ts';
import { base, said } from '../../scheduler/making.ts';

const CARDS = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const ALL = {
  patterns: lastRevision(HARBOUR_LANE).patterns,
  kinds: ['number', 'window'],
  counts: false,
} as const;
const EMPTY = foldLog([]);
const TODAY = 20_000;

describe('the cards a rehearsal is drawn from', () => {
  it('are those of the chosen patterns and kinds', () => {
    const found = rehearsable(CARDS, EMPTY, { ...ALL, patterns: ['cross-side'], kinds: ['trust'] });
    expect(found.length).toBeGreaterThan(0);
    for (const card of found) {
      expect(card).toMatchObject({ pattern: 'cross-side', kind: 'trust' });
    }
  });

  it('leave out lines that were set aside', () => {
    const [card] = numbers();
    const log = foldLog([said(base(0, 9), 'set aside', { line: card.lineId, aside: true })]);
    const found = rehearsable(CARDS, log, ALL);
    expect(found.length).toBe(rehearsable(CARDS, EMPTY, ALL).length - 2);
    expect(found.some(({ lineId }) => lineId === card.lineId)).toBe(false);
  });

  it('are only those the player has met, if the rehearsal counts', () => {
    const [met, remembered] = numbers();
    const log = {
      ...foldLog([said(base(0, 9), 'met', { line: met.lineId })]),
      memories: new Map([[remembered.id, memory(5, TODAY)]]),
    };
    const ids = rehearsable(CARDS, log, { ...ALL, counts: true }).map(({ id }) => id);
    const ofMet = CARDS.filter(({ lineId, kind }) => lineId === met.lineId && kind !== 'trust');
    expect(ids).toEqual([...ofMet.map(({ id }) => id), remembered.id]);
    expect(rehearsable(CARDS, EMPTY, { ...ALL, counts: true })).toEqual([]);
  });
});

describe('the set-up of a finished rehearsal', () => {
  const asked = (card: string, kind: 'number' | 'window') => ({
    ...{ card, kind, answer: [1], errors: [0], outcome: 'pocketed', ms: 1000 },
    ...{ ranOut: false, tolerance: 0.1 },
  });
  const finished = (questions: readonly ReturnType<typeof asked>[]) =>
    specOfFinished(
      said(base(0, 9), 'rehearsed', { counts: true, clock: null, began: 1, questions } as never),
    );

  it('is its clock, its length, whether it counted, and what it asked', () => {
    const [one, other] = [asked('c/cross-side/5', 'window'), asked('c/up-and-back/1', 'number')];
    expect(finished([...Array(9).fill(one), other])).toEqual({
      patterns: ['cross-side', 'up-and-back'],
      kinds: ['number', 'window'],
      count: 10,
      clock: null,
      counts: true,
    });
  });

  it('has a length from the list, even if some questions were left out', () => {
    const one = asked('c/cross-side/5', 'number');
    expect(finished(Array(17).fill(one)).count).toBe(20);
    expect(finished(Array(200).fill(one)).count).toBe(30);
  });
});

describe('the weight of a card', () => {
  // By number of cushions: common practice, no source.
  it.each([
    ['cross-side', 'often'],
    ['short-long-to-side', 'now and then'],
    ['three-cushion', 'seldom'],
  ] as const)('counts %s as "%s" until the player says otherwise', (pattern, use) => {
    expect(useOf({}, pattern)).toBe(use);
    expect(useOf({ [pattern]: 'seldom' }, pattern)).toBe('seldom');
  });

  // The recall of a stability of one day: FSRS-6 as published (py-fsrs @3abe686), R(t, S = 1).
  it.each([
    [0, 1],
    [1, 0.9],
    [2, 0.84588465],
    [3, 0.8093881],
  ])('after %i days at a stability of one is 1.2 minus %f', (days, recall) => {
    const [card] = numbers();
    const log: LogState = { ...EMPTY, memories: new Map([[card.id, memory(1, TODAY - days)]]) };
    const use = { [card.pattern]: 'seldom' } as const;
    expect(weigh([card], log, TODAY, use)[0]?.weight).toBeCloseTo(1.2 - recall, 7);
  });

  it('is 1.2 for a card never asked, and two or four times that if it comes up more often', () => {
    const [card] = numbers();
    const weights = (['seldom', 'now and then', 'often'] as const).map(
      (use) => weigh([card], EMPTY, TODAY, { [card.pattern]: use })[0]?.weight,
    );
    expect(weights).toEqual([1.2, 2.4, 4.8]);
  });
});

describe('the plan', () => {
  it('is the same for the same seed, and differs for another', () => {
    const weighed = weigh(rehearsable(CARDS, EMPTY, ALL), EMPTY, TODAY, {});
    const ids = (seed: number) => planRehearsal(weighed, 20, seed).map(({ id }) => id);
    expect(ids(7)).toEqual(ids(7));
    expect(ids(8)).not.toEqual(ids(7));
  });

  it('has the wanted length, and repeats no card before all others', () => {
    fc.assert(
      fc.property(weighedArb, fc.integer({ min: 1, max: 40 }), fc.nat(), (weighed, count, seed) => {
        const plan = planRehearsal(weighed, count, seed);
        expect(plan).toHaveLength(count);
        const times = weighed.map(({ card }) => plan.filter((one) => one === card).length);
        expect(Math.max(...times) - Math.min(...times)).toBeLessThanOrEqual(1);
      }),
    );
  });

  /**
   * m of n questions are of the commonest pattern: the n − m others part them into n − m + 1 runs at
   * most, so m − (n − m + 1) of them have to follow their like, and none if that is less than none.
   */
  it('has neighbors of one pattern only as often as it must', () => {
    fc.assert(
      fc.property(weighedArb, fc.integer({ min: 1, max: 40 }), fc.nat(), (weighed, count, seed) => {
        const patterns = planRehearsal(weighed, count, seed).map(({ pattern }) => pattern);
        const commonest = Math.max(
          ...patterns.map((one) => patterns.filter((other) => other === one).length),
        );
        const repeats = patterns.filter((one, n) => n > 0 && one === patterns[n - 1]).length;
        expect(repeats).toBe(Math.max(0, 2 * commonest - count - 1));
      }),
    );
  });

  it('throws without cards', () => {
    expect(() => planRehearsal([], 5, 1)).toThrow('no cards');
  });

  /**
   * Of independent seeds a share p is binomial, its deviation √(p(1−p)/N). Four and a half of those
   * are passed by chance once in 150 000 times (normal approximation); the seeds are always the same.
   */
  it('draws first cards in proportion to their weights', () => {
    const weights = [1.2, 2.4, 4.8, 0.2, 0.8];
    const weighed = ofWeights(weights);
    const total = weights.reduce((sum, one) => sum + one);
    const shares = sharesOf(weighed, 1);
    for (const [n, weight] of weights.entries()) expectShare(shares[n], weight / total);
  });

  it('draws second cards in proportion to the remaining weights', () => {
    const weights = [1.2, 4.8, 0.8, 2.4];
    const total = weights.reduce((sum, one) => sum + one);
    const shares = sharesOf(ofWeights(weights), 2);
    for (const [n, weight] of weights.entries()) {
      // A card comes first, or second after one of the others: the definition, written out.
      const second = weights
        .filter((_, other) => other !== n)
        .reduce((sum, other) => sum + (other / total) * (weight / (total - other)), 0);
      expectShare(shares[n], weight / total + second);
    }
  });
});

const SEEDS = 20_000;

function expectShare(share: number | undefined, expected: number): void {
  const deviation = Math.sqrt((expected * (1 - expected)) / SEEDS);
  expect(Math.abs((share ?? 0) - expected)).toBeLessThan(4.5 * deviation);
}

/** How often each card is among the first of a plan. */
function sharesOf(weighed: readonly Weighed[], count: number): readonly number[] {
  const times = weighed.map(() => 0);
  for (let seed = 0; seed < SEEDS; seed++) {
    const plan = planRehearsal(weighed, count, seed);
    for (const [n, { card }] of weighed.entries()) {
      if (plan.includes(card)) times[n] = (times[n] ?? 0) + 1;
    }
  }
  return times.map((one) => one / SEEDS);
}

function ofWeights(weights: readonly number[]): readonly Weighed[] {
  return weights.map((weight, n) => ({ card: CARDS[n] as Card, weight }));
}

function numbers(): [Card, Card] {
  const [first, second] = CARDS.filter(({ kind }) => kind === 'number');
  return [first as Card, second as Card];
}

function memory(stability: number, lastDay: number): CardMemory {
  const rest = { difficulty: 5, firstDay: 0, answers: 3, missesInARow: 0, told: null, lastStep: 0 };
  return { ...rest, recent: [], stability, lastDay, lastOutcome: 'pocketed' };
}

const weighedArb: fc.Arbitrary<readonly Weighed[]> = fc.uniqueArray(
  fc.record({
    card: fc.constantFrom(...CARDS),
    weight: fc.double({ min: 0.2, max: 4.8, noNaN: true }),
  }),
  { minLength: 1, maxLength: 12, selector: ({ card }) => card.id },
);
