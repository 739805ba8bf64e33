import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, type LineCard } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  type CardMemory,
  foldLog,
  type LogEvent,
  notSticking,
  numberCards,
} from '../../../src/scheduler/index.ts';
import { PUBLISHED } from '../../../src/scheduler/memory/memory.ts';
import { shuffled } from '../histories.ts';
import { answer, base, said } from '../making.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const numbers = numberCards(cards);
/** The numbers of the patterns with the most lines. */
const [own = [], others = []] = [...new Set(numbers.map(({ pattern }) => pattern))]
  .map((one) => numbers.filter(({ pattern }) => pattern === one))
  .sort((a, b) => b.length - a.length);

function memoryOf(answers: number, stability: number): CardMemory {
  return {
    ...{ stability, difficulty: 5, firstDay: 1, lastDay: 50, lastOutcome: 'off' as const },
    ...{ answers, missesInARow: 0, lastStep: 9, told: null, recent: [] },
  };
}

type Given = readonly (readonly [card: Card, answers: number, stability: number])[];

function found(given: Given, aside: readonly string[] = []): readonly Card[] {
  const memories = new Map(given.map(([card, ...rest]) => [card.id, memoryOf(...rest)]));
  return notSticking(cards, { memories, aside: new Set(aside), model: PUBLISHED });
}

function cardAt(list: readonly LineCard[], n: number): LineCard {
  const card = list[n];
  if (!card) throw new Error(`no card ${n}`);
  return card;
}

/** Four cards of a pattern that stick: 4 answers each, and known for a year. */
const SOUND: Given = [1, 2, 3, 4].map((n) => [cardAt(own, n), 4, 365]);
const BAD = cardAt(own, 0);

describe('a card that does not stick', () => {
  it('was asked six times and is forgotten within a month', () => {
    expect(found([...SOUND, [BAD, 6, 1]])).toEqual([BAD]);
    expect(found([...SOUND, [BAD, 5, 1]])).toEqual([]);
    expect(found(SOUND)).toEqual([]);
  });

  it('has a recall below 0.7 after 30 days', () => {
    const lasting = (wanted: number) => {
      let stability = 0.1;
      while (PUBLISHED.recall({ stability }, 30) < wanted) stability *= 1.001;
      return stability;
    };
    // With 40 answers, the yield is low in both cases.
    expect(found([...SOUND, [BAD, 40, lasting(0.705)]])).toEqual([]);
    expect(found([...SOUND, [BAD, 40, lasting(0.69)]])).toEqual([BAD]);
  });

  it('yields less than half of the median of the others', () => {
    const recall = PUBLISHED.recall({ stability: 2 }, 30);
    const same: Given = [1, 2, 3].map((n) => [cardAt(own, n), 6, 2]);
    const yields = (answers: number) => recall / answers / (recall / 6);
    expect(yields(11)).toBeGreaterThan(0.5);
    expect(yields(13)).toBeLessThan(0.5);
    expect(found([...same, [BAD, 11, 2]])).toEqual([]);
    expect(found([...same, [BAD, 13, 2]])).toEqual([BAD]);
  });

  it('is compared with its pattern, and with all cards if that has too few', () => {
    // Its own pattern is as bad, so the pattern is hard, not the card.
    const bad: Given = [1, 2, 3].map((n) => [cardAt(own, n), 6, 1]);
    const sound: Given = [0, 1, 2, 3].map((n) => [cardAt(others, n), 4, 365]);
    expect(found([...bad, ...sound, [BAD, 6, 1]])).toEqual([]);
    // Two others of the pattern are too few; two answers are too few to be one of them.
    const two = bad.slice(0, 2);
    expect(found([...two, ...sound, [BAD, 6, 1]])).toContain(BAD);
    expect(found([...two, [cardAt(own, 3), 2, 1], ...sound, [BAD, 6, 1]])).toContain(BAD);
    expect(found([...two, [cardAt(own, 3), 3, 1], ...sound, [BAD, 6, 1]])).not.toContain(BAD);
  });

  it('is not told where there is too little to compare it with', () => {
    expect(found([[BAD, 20, 0.5]])).toEqual([]);
    expect(found([...SOUND.slice(0, 2), [BAD, 20, 0.5]])).toEqual([]);
    expect(found([...SOUND.slice(0, 3), [BAD, 20, 0.5]])).toEqual([BAD]);
  });

  it('comes before others that do better', () => {
    const sound: Given = [...SOUND, [cardAt(own, 5), 4, 365], [cardAt(own, 6), 4, 365]];
    const three: Given = [
      [cardAt(own, 7), 8, 1],
      [BAD, 12, 1],
      [cardAt(own, 8), 8, 0.1],
    ];
    const yieldOf = (card: Card) => {
      const [, answers, stability] = three.find(([one]) => one === card) as Given[number];
      return PUBLISHED.recall({ stability }, 30) / answers;
    };
    const list = found([...sound, ...three]);
    expect(new Set(list)).toEqual(new Set(three.map(([card]) => card)));
    const yields = list.map(yieldOf);
    expect([...yields].sort((a, b) => a - b)).toEqual(yields);
  });

  it('is left out once it is set aside, and nothing else changes', () => {
    const givenArb = fc.uniqueArray(
      fc.tuple(
        fc.constantFrom(...numbers.slice(0, 30)),
        fc.integer({ min: 1, max: 15 }),
        fc.double({ min: 0.05, max: 100, noNaN: true }),
      ),
      { selector: ([card]) => card.id, minLength: 10, maxLength: 30 },
    );
    let met = 0;
    fc.assert(
      fc.property(givenArb, fc.nat(), (given, seed) => {
        const all = found(given);
        expect(found(shuffled(given, seed))).toEqual(all);
        for (const card of all) {
          met++;
          expect(found(given, [card.lineId])).toEqual(all.filter((one) => one !== card));
        }
      }),
      { numRuns: 100, seed: 1 },
    );
    expect(met).toBeGreaterThan(50);
  });

  it('is found in a log, and taken in again it is found again', () => {
    const events: LogEvent[] = [];
    const put = (card: Card, day: number, wrong: boolean) => {
      const event = answer(events.length, card.id, day);
      events.push(wrong ? { ...event, outcome: 'off', errors: [0.5] } : event);
    };
    for (let day = 1; day <= 9; day++) {
      put(BAD, day, true);
      if (day % 3 === 0) for (const [card] of SOUND) put(card, day, false);
    }
    expect(notSticking(cards, foldLog(events))).toEqual([BAD]);
    const mark = (aside: boolean) =>
      said(base(events.length, 10), 'set aside', { line: BAD.lineId, aside });
    events.push(mark(true));
    expect(notSticking(cards, foldLog(events))).toEqual([]);
    events.push(mark(false));
    expect(notSticking(cards, foldLog(events))).toEqual([BAD]);
  });
});
