import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LineCard } from '../../../src/cards/index.ts';
import { nextByEar } from '../../../src/quiz/ear/cards.ts';
import { addToLog, foldLog, type LogEvent, type Wish } from '../../../src/scheduler/index.ts';
import { answer, base, GIVEN, judged, said } from '../../scheduler/making.ts';
import { cards, TODAY } from './device.ts';

/** These laws are the project's own: there is no outside source for the order by ear. */
const settings: Wish = {
  newLinesADay: null,
  meetFirst: true,
  kinds: ['number', 'window'],
  day: null,
  worth: () => 1,
};
/** Cards that were asked before; windows would be new. */
const plain: Wish = { ...settings, kinds: ['number'] };
const numbers = cards.filter((card): card is LineCard => card.kind === 'number');
/** Others between a miss and the next attempt, where there are so many. */
const APART = 2;
/** So many misses in a row are enough for a day. */
const ENOUGH_MISSES = 3;

const implied = (card: LineCard, seq: number, day = TODAY): LogEvent =>
  said(base(seq, day), 'proved', {
    ...GIVEN,
    card: card.id,
    implied: true,
    answer: null,
    errors: null,
  });

/** All that a day asks; `isMissed` says at which places of the order the card is missed. */
function dayOf(
  events: readonly LogEvent[],
  isMissed: (n: number) => boolean = () => false,
  day = TODAY,
  wanted = settings,
): readonly LineCard[] {
  const order: LineCard[] = [];
  let log = foldLog(events);
  for (;;) {
    const step = nextByEar(cards, log, day, wanted);
    if (step.type !== 'ask') return order;
    const event = judged(events.length + order.length, step.card.id, day, !isMissed(order.length));
    log = addToLog(log, { ...event, kind: step.card.kind });
    order.push(step.card);
  }
}

describe('after placement', () => {
  it('asks no line on the same day, and each once on the next', () => {
    const some = numbers.slice(0, 41);
    const [first] = some as [LineCard];
    const proved = said(base(99, TODAY), 'proved', { ...GIVEN, card: first.id, implied: false });
    const events = [...some.slice(1).map((card, n) => implied(card, n)), proved];
    expect(dayOf(events)).toEqual([]);
    const order = dayOf(events, undefined, TODAY + 1);
    expect(order.map(({ lineId }) => lineId).sort()).toEqual(
      some.map(({ lineId }) => lineId).sort(),
    );
  });
});

describe('the order by ear', () => {
  it('differs from the order of the cards, lasts all day, and changes the next day', () => {
    const some = numbers.slice(0, 41);
    const orderOn = (day: number) =>
      dayOf(
        some.map((card, n) => implied(card, n, day - 1)),
        undefined,
        day,
        plain,
      ).map(({ id }) => id);
    const today = orderOn(TODAY);
    expect(today).not.toEqual(some.map(({ id }) => id));
    expect(today).not.toEqual([...today].sort());
    expect(orderOn(TODAY + 1)).not.toEqual(today);
    expect(orderOn(TODAY + 1).sort()).toEqual([...today].sort());
    // After half of the lines, the others come in the order in which they would have come anyway.
    const events = some.map((card, n) => implied(card, n, TODAY - 1));
    const half = today.slice(0, 20).map((id, n) => judged(events.length + n, id, TODAY, true));
    const rest = dayOf([...events, ...half], undefined, TODAY, plain).map(({ id }) => id);
    expect(rest).toEqual(today.slice(20));
  });

  it('mixes patterns whose lines are known equally well', () => {
    // They count the same, too.
    const equal = numbers.filter(({ priority }) => priority === numbers[0]?.priority);
    const patterns = [...new Set(equal.map(({ pattern }) => pattern))];
    expect(patterns.length).toBeGreaterThan(2);
    const events = equal.map((card, n) => implied(card, n, TODAY - 1));
    const order = dayOf(events, undefined, TODAY, plain);
    expect(order).toHaveLength(equal.length);
    for (const [n, { pattern }] of order.entries()) {
      if (n === 0 || order[n - 1]?.pattern !== pattern) continue;
      // Any card that comes later could have been asked here.
      expect(order.slice(n).every((card) => card.pattern === pattern)).toBe(true);
    }
  });

  it('brings a missed line back after two others if there are any', () => {
    const patterns = [...new Set(numbers.map(({ pattern }) => pattern))].slice(0, 5);
    const one = (pattern: string) => numbers.find((card) => card.pattern === pattern) as LineCard;
    const order = dayOf(
      patterns.map((pattern, n) => implied(one(pattern), n, TODAY - 1)),
      (n) => n === 0,
    );
    expect(order).toHaveLength(patterns.length + 1);
    expect(order.lastIndexOf(order[0] as LineCard)).toBe(APART + 1);
  });

  it('repeats a card sooner only if all others that may be asked were asked', () => {
    holds((order) => {
      for (const [n, card] of order.entries()) {
        const recent = order.slice(Math.max(0, n - APART), n);
        if (!recent.includes(card)) continue;
        expect(order.slice(n).every((one) => order.slice(0, n).includes(one))).toBe(true);
      }
    });
  });

  it('repeats a missed card until it is right or was missed three times, and no other', () => {
    holds((order, isMissed) => {
      for (const card of new Set(order)) {
        const tries = order.flatMap((one, n) => (one === card ? [isMissed(n)] : []));
        const misses = tries.indexOf(false) === -1 ? tries.length : tries.indexOf(false);
        expect(tries).toHaveLength(Math.min(misses + 1, ENOUGH_MISSES));
      }
    });
  });

  it('has one card of a line', () => {
    holds((order) => {
      const ids = new Set(order.map(({ id }) => id));
      expect(new Set(order.map(({ lineId }) => lineId)).size).toBe(ids.size);
    });
  });
});

/** Tries a law on lines with memories of every kind, and any misses. */
function holds(law: (order: readonly LineCard[], isMissed: (n: number) => boolean) => void): void {
  const one = fc.record({
    card: fc.constantFrom(...numbers),
    how: fc.constantFrom('implied', 'asked', 'long ago'),
  });
  const lines = fc.uniqueArray(one, {
    selector: ({ card }) => card.id,
    maxLength: 25,
    size: 'max',
  });
  const kinds = fc.constantFrom<Wish['kinds']>(['number'], ['number', 'window']);
  const misses = fc.infiniteStream(fc.integer({ min: 0, max: 3 }));
  const run = fc.property(lines, kinds, misses, (chosen, wanted, stream) => {
    const events = chosen.map(({ card, how }, n) =>
      how === 'implied'
        ? implied(card, n, TODAY - 1)
        : answer(n, card.id, TODAY - (how === 'asked' ? 1 : 60)),
    );
    const missed = [...stream.take(40)].map((die) => die === 0);
    const isMissed = (n: number) => missed[n] ?? false;
    law(dayOf(events, isMissed, TODAY, { ...settings, kinds: wanted }), isMissed);
  });
  fc.assert(run, { numRuns: 60 });
}
