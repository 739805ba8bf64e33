import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { LineCard } from '../../../src/cards/index.ts';
import { nextByEar } from '../../../src/quiz/ear/cards.ts';
import {
  addToLog,
  foldLog,
  type LogEvent,
  type QueueSettings,
} from '../../../src/scheduler/index.ts';
import { answer, base, GIVEN, judged, said } from '../../scheduler/making.ts';
import { cards, TODAY } from './device.ts';

/** These laws are the project's own: there is no outside source for the order by ear. */
const settings: QueueSettings = {
  targetRecall: 0.9,
  newLinesPerDay: 6,
  meetFirst: true,
  kinds: ['number', 'window'],
};
const numbers = cards.filter((card): card is LineCard => card.kind === 'number');
/** Others between a miss and the next attempt, where there are so many. */
const APART = 3;

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
  it('asks lines that only followed on the same day, each once', () => {
    const some = numbers.slice(0, 41);
    const order = dayOf(some.map((card, n) => implied(card, n)));
    expect(order.map(({ id }) => id).sort()).toEqual(some.map(({ id }) => id).sort());
  });

  it('does not ask a line again that placement asked today', () => {
    const [first, second] = numbers as [LineCard, LineCard];
    const proved = said(base(0, TODAY), 'proved', { ...GIVEN, card: first.id, implied: false });
    expect(dayOf([proved, implied(second, 1)])).toEqual([second]);
    expect(nextByEar(cards, foldLog([proved]), TODAY, settings)).toEqual({ type: 'all asked' });
  });
});

describe('the order by ear', () => {
  it('differs from the order of the cards, lasts all day, and changes the next day', () => {
    const orderOn = (day: number) =>
      dayOf(
        numbers.slice(0, 41).map((card, n) => implied(card, n, day)),
        undefined,
        day,
      ).map(({ id }) => id);
    const today = orderOn(TODAY);
    expect(today).toEqual(orderOn(TODAY));
    expect(today).not.toEqual([...today].sort());
    expect(orderOn(TODAY + 1)).not.toEqual(today);
    expect(orderOn(TODAY + 1).sort()).toEqual([...today].sort());
  });

  it('brings a missed line back after three others', () => {
    const patterns = [...new Set(numbers.map(({ pattern }) => pattern))].slice(0, 5);
    const one = (pattern: string) => numbers.find((card) => card.pattern === pattern) as LineCard;
    const order = dayOf(
      patterns.map((pattern, n) => implied(one(pattern), n)),
      (n) => n === 0,
    );
    expect(order).toHaveLength(patterns.length + 1);
    expect(order.lastIndexOf(order[0] as LineCard)).toBeGreaterThan(APART);
  });

  it('never has two cards of a pattern in a row while another pattern has one', () => {
    holds((order) => {
      for (const [n, { pattern }] of order.entries()) {
        if (n === 0 || order[n - 1]?.pattern !== pattern) continue;
        // Any card that comes later could have been asked here.
        expect(order.slice(n).every((card) => card.pattern === pattern)).toBe(true);
      }
    });
  });

  it('repeats a card sooner only if no other pattern has one that has waited', () => {
    holds((order) => {
      for (const [n, card] of order.entries()) {
        const recent = order.slice(Math.max(0, n - APART), n);
        if (!recent.includes(card)) continue;
        const last = order[n - 1]?.pattern;
        const others = order.slice(n).filter(({ pattern }) => pattern !== last);
        expect(others.every((one) => recent.includes(one))).toBe(true);
      }
    });
  });
});

/** Tries a law on lines with memories of every kind, and any misses. */
function holds(law: (order: readonly LineCard[]) => void): void {
  const one = fc.record({
    card: fc.constantFrom(...numbers),
    how: fc.constantFrom('implied', 'asked', 'long ago'),
  });
  const lines = fc.uniqueArray(one, {
    selector: ({ card }) => card.id,
    maxLength: 25,
    size: 'max',
  });
  const kinds = fc.constantFrom<QueueSettings['kinds']>(['number'], ['number', 'window']);
  const misses = fc.infiniteStream(fc.integer({ min: 0, max: 3 }));
  const run = fc.property(lines, kinds, misses, (chosen, wanted, stream) => {
    const events = chosen.map(({ card, how }, n) =>
      how === 'implied' ? implied(card, n) : answer(n, card.id, TODAY - (how === 'asked' ? 1 : 60)),
    );
    const missed = [...stream.take(40)].map((die) => die === 0);
    law(dayOf(events, (n) => missed[n] ?? false, TODAY, { ...settings, kinds: wanted }));
  });
  fc.assert(run, { numRuns: 60 });
}
