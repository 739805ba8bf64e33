import { describe, expect, it } from 'vitest';
import { cardsOf } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import {
  dayAhead,
  daysUntilBack,
  foldLog,
  nextStep,
  stepsOn,
} from '../../../src/scheduler/index.ts';
import { base, said } from '../making.ts';
import { FIRST_DAY, learn, play, WISH } from './playing.ts';

const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));

describe('a day ahead', () => {
  it.each([0, 3, 9])('is what is then played if every answer is right, after %d days', (days) => {
    const before = learn(cards, days, WISH);
    const today = FIRST_DAY + days;
    const ahead = dayAhead(cards, foldLog(before), today, WISH, 25);
    const { played } = play(cards, today, WISH, { before, most: 25 });
    expect(ahead.steps).toBe(25);
    expect(ahead.cards.map(({ id }) => id)).toEqual(
      played.flatMap(({ step }) => (step.type === 'ask' ? [step.card.id] : [])),
    );
    expect(ahead.fresh.map(({ id }) => id)).toEqual(
      played.flatMap(({ step }) => (step.type === 'meet' ? [step.card.id] : [])),
    );
  });

  it('is over when no card is left', () => {
    const numbers = cards.filter(({ kind }) => kind === 'number').slice(0, 4);
    const ahead = dayAhead(numbers, foldLog([]), FIRST_DAY, WISH, 100);
    // Each of four lines is shown and asked.
    expect(ahead).toMatchObject({ steps: 8, cards: { length: 4 }, fresh: { length: 4 } });
    const { events } = play(numbers, FIRST_DAY, WISH);
    expect(nextStep(numbers, foldLog(events), FIRST_DAY, WISH)).toEqual({ step: null, left: 0 });
    expect(dayAhead(numbers, foldLog(events), FIRST_DAY, WISH, 100).steps).toBe(0);
  });
});

describe('the steps of a day', () => {
  it('are its answers and lines shown, without those taken back', () => {
    const { events } = play(cards, FIRST_DAY, WISH, { most: 12 });
    const answered = events.find(({ type }) => type === 'answered')?.id ?? '';
    const back = said(base(events.length, FIRST_DAY), 'taken back', { answered });
    expect(stepsOn(foldLog(events), FIRST_DAY)).toBe(12);
    expect(stepsOn(foldLog([...events, back]), FIRST_DAY)).toBe(11);
    expect(stepsOn(foldLog(events), FIRST_DAY + 1)).toBe(0);
  });
});

describe('the days until a card is back', () => {
  const before = learn(cards, 12, WISH, 19);
  const log = foldLog(before);
  const today = FIRST_DAY + 11;
  const ids = new Set(cards.filter(({ id }) => log.memories.has(id)).map(({ id }) => id));
  const back = daysUntilBack(cards, log, today, WISH, 19, ids);

  it('are those after which it is asked, if every answer is right', () => {
    let events = before;
    const asked = new Map<string, number>();
    const days = 12;
    for (let n = 1; n <= days; n++) {
      const day = play(cards, today + n, WISH, { before: events, most: 19 });
      for (const { step } of day.played) {
        const { id } = step.card;
        if (step.type === 'ask' && ids.has(id) && !asked.has(id)) asked.set(id, n);
      }
      events = day.events;
    }
    expect(asked.size).toBeGreaterThan(30);
    expect(new Map([...back].filter(([, n]) => n <= days))).toEqual(asked);
  });

  it('are at least one, and different for different cards', () => {
    expect(back.size).toBeGreaterThan(0.9 * ids.size);
    for (const days of back.values()) expect(days).toBeGreaterThanOrEqual(1);
    expect(new Set(back.values()).size).toBeGreaterThan(5);
  });
});
