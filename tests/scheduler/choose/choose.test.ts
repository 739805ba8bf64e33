import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Card, cardsOf, isSkill, OUTCOMES, type Outcome } from '../../../src/cards/index.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { AHEAD, choose, dayOf } from '../../../src/scheduler/choose/choose.ts';
import { courseOf } from '../../../src/scheduler/choose/course.ts';
import { stateOf } from '../../../src/scheduler/choose/state.ts';
import {
  DEFAULT_WEIGHTS,
  foldLog,
  type LogEvent,
  type Memory,
  nextStep,
  PUBLISHED,
} from '../../../src/scheduler/index.ts';
import { kernelOf } from '../../../src/scheduler/memory/kernel.ts';
import { shuffled } from '../histories.ts';
import { base, GIVEN, said } from '../making.ts';
import { FIRST_DAY, learn, type Played, play, WISH } from './playing.ts';

/** The rules of choosing are the project's own. Memory is that of FSRS-6 (ts-fsrs 5). */
const cards = cardsOf(computeChart(HARBOUR_LANE), toDecimal(0.1));
const kernel = kernelOf(DEFAULT_WEIGHTS);

const outcomesArb = fc
  .array(fc.constantFrom<Outcome>(...OUTCOMES), { minLength: 3, maxLength: 9 })
  .filter((list) => list.includes('pocketed'));

/** Some days of practice with any outcomes: what was played on each, and the log after. */
const historyArb = fc
  .record({
    gaps: fc.array(fc.integer({ min: 1, max: 20 }), { minLength: 1, maxLength: 5 }),
    outcomes: outcomesArb,
    anchorsOnly: fc.boolean(),
    meetFirst: fc.boolean(),
    newLinesADay: fc.constantFrom(null, 0, 2, 6),
  })
  .map(({ gaps, outcomes, ...wanted }) => {
    const wish = { ...WISH, ...wanted };
    let day = FIRST_DAY;
    let before: readonly LogEvent[] = [];
    const days: (readonly Played[])[] = [];
    for (const gap of gaps) {
      const outcome = (_card: Card, n: number) => outcomes[n % outcomes.length] ?? 'pocketed';
      const { played, events } = play(cards, day, wish, { before, most: 25, outcome });
      days.push(played);
      before = events;
      day += gap;
    }
    return { wish, days, events: before, day };
  });

type History = typeof historyArb extends fc.Arbitrary<infer T> ? T : never;

function holds(law: (history: History) => void): void {
  fc.assert(fc.property(historyArb, law), { numRuns: 25 });
}

describe('the next step', () => {
  it('depends on the set of events alone', () => {
    holds(({ wish, events, day }) => {
      const next = nextStep(cards, foldLog(events), day, wish);
      for (const seed of [1, 2])
        expect(nextStep(cards, foldLog(shuffled(events, seed)), day, wish)).toEqual(next);
    });
  });

  it('never asks two cards of a line on one day', () => {
    holds(({ days }) => {
      for (const played of days) {
        const byLine = new Map<string, string>();
        for (const { step } of played) {
          if (step.type !== 'ask') continue;
          const { id, lineId } = step.card;
          expect(byLine.get(lineId) ?? id).toBe(id);
          byLine.set(lineId, id);
        }
      }
    });
  });

  it('first asks a card on a day after all cards it waits for were right', () => {
    holds(({ days }) => {
      for (const { step, log, day } of days.flat()) {
        if (step.type !== 'ask' || log.memories.has(step.card.id)) continue;
        for (const id of step.card.after) {
          const memory = log.memories.get(id);
          // A line that is interpolated has no memory. The law for it is in learned.test.ts.
          if (!memory) continue;
          expect(memory.firstDay).toBeLessThan(day);
          expect(memory.lastOutcome).not.toBe('off');
        }
      }
    });
  });

  it('comes back to a card that was missed after two others, and not after three misses', () => {
    const missed = new Set<string>();
    const outcome = ({ id }: Card): Outcome => {
      if (missed.size < 4) missed.add(id);
      return missed.has(id) ? 'off' : 'pocketed';
    };
    const { played } = play(cards, FIRST_DAY, WISH, { most: 40, outcome });
    const asked = played.map(({ step }) => (step.type === 'ask' ? step.card.id : ''));
    for (const id of missed) {
      const places = asked.flatMap((one, n) => (one === id ? [n] : []));
      expect(places).toHaveLength(3);
      for (const [n, place] of places.slice(1).entries())
        expect(place - (places[n] ?? 0)).toBeGreaterThan(2);
    }
  });

  it('asks a missed card at once if nothing else is left', () => {
    const [one] = cards.filter(({ kind }) => kind === 'number') as [Card];
    const { played } = play([one], FIRST_DAY, WISH, { outcome: () => 'off' });
    expect(played.map(({ step }) => step.type)).toEqual(['meet', 'ask', 'ask', 'ask']);
  });

  it('shows no more new lines a day than the player wants', () => {
    holds(({ wish, days }) => {
      if (wish.newLinesADay === null) return;
      for (const played of days) {
        const fresh = new Set<string>();
        for (const { step, log } of played) {
          const { card } = step;
          const known = log.met.has(card.lineId) || log.memories.has(card.id);
          if (card.kind === 'number' && !known) fresh.add(card.lineId);
        }
        expect(fresh.size).toBeLessThanOrEqual(wish.newLinesADay);
      }
    });
  });

  it('counts no line known from placement as new', () => {
    const wish = { ...WISH, newLinesADay: 2 };
    const placed = cards
      .filter(({ kind }) => kind === 'number')
      .slice(0, 9)
      .map(({ id }, n) =>
        said(base(n, FIRST_DAY), 'proved', { ...GIVEN, card: id, implied: n % 2 === 0 }),
      );
    const { played } = play(cards, FIRST_DAY, wish, { before: placed, most: 30 });
    expect(played.filter(({ step }) => step.type === 'meet')).toHaveLength(2);
  });

  it('has no second share of new lines if the start of the day is moved', () => {
    const wish = { ...WISH, newLinesADay: 3 };
    const { events } = play(cards, FIRST_DAY, wish, { most: 20 });
    const { played } = play(cards, FIRST_DAY - 1, wish, { before: events, most: 20 });
    expect(played.filter(({ step }) => step.type === 'meet')).toHaveLength(0);
  });

  it('leaves out lines that are set aside and kinds that are not wanted', () => {
    const events = learn(cards, 6, WISH);
    const { lineId } = cards[0] as Card;
    const aside = said(base(events.length, 106), 'set aside', { line: lineId, aside: true });
    const asked = (before: readonly LogEvent[], wish = WISH) =>
      play(cards, 160, wish, { before }).played.map(({ step }) => step.card);
    expect(asked(events).some((card) => card.lineId === lineId)).toBe(true);
    expect(asked([...events, aside]).some((card) => card.lineId === lineId)).toBe(false);
    expect(asked(events).some(({ kind }) => kind !== 'number')).toBe(true);
    const numbers = asked(events, { ...WISH, kinds: ['number'] });
    expect(numbers.every(({ kind }) => kind === 'number')).toBe(true);
  });

  it('is not disturbed by an answer that a wrong clock dated ahead', () => {
    const events = play(cards, FIRST_DAY, WISH, { most: 30 }).events.map((event, n) =>
      n === 7 ? { ...event, day: 500, at: 500 * 86_400_000 } : event,
    );
    const { played } = play(cards, FIRST_DAY + 1, WISH, { before: events, most: 30 });
    expect(new Set(played.map(({ step }) => step.card.pattern)).size).toBeGreaterThan(3);
    expect(new Set(played.map(({ step }) => step.card.id)).size).toBeGreaterThan(8);
  });
});

describe('a day', () => {
  it('has questions as long as time and cards are left', () => {
    let before: readonly LogEvent[] = [];
    for (let day = FIRST_DAY; day < FIRST_DAY + 40; day++) {
      const { played, events } = play(cards, day, WISH, { before, most: 19 });
      expect(played).toHaveLength(19);
      before = events;
    }
  });

  it('asks every kind, a little of each', () => {
    const events = learn(cards, 12, WISH);
    const kinds = new Set(events.flatMap((one) => (one.type === 'answered' ? [one.kind] : [])));
    expect([...kinds].sort()).toEqual([...WISH.kinds].sort());
  });

  it('after three weeks away has no more questions than any other', () => {
    const before = learn(cards, 10, WISH);
    const { played } = play(cards, FIRST_DAY + 31, WISH, { before, most: 19 });
    expect(played).toHaveLength(19);
    // It begins with what is worth most: numbers and the skills that lines depend on.
    const first = played.slice(0, 8).map(({ step }) => step.card);
    expect(first.filter(({ kind }) => kind === 'number' || isSkill(kind)).length).toBe(8);
  });
});

describe('the gain', () => {
  /** By the library: what one answer adds to recall on a later day, per answer. */
  function plainGain(memory: Memory | null, days: number, left: number, shows: boolean): number {
    const right = memory ? 0.97 * PUBLISHED.recall(memory, days) : 0.8;
    const known = memory ? PUBLISHED.recall(memory, days + left) : 0;
    const then = PUBLISHED.recall(PUBLISHED.remember(memory, days, 'pocketed'), left);
    const missed = PUBLISHED.remember(memory, days, 'off');
    const again = PUBLISHED.recall(PUBLISHED.remember(missed, 0, 'pocketed'), left);
    const answers = 1 + 1.2 * (1 - right) + (shows ? 1 : 0);
    return (right * then + (1 - right) * again - known) / answers;
  }

  it('is that of the formula, by the library, times the weight, within the daily shuffle', () => {
    const events = learn(cards, 8, WISH);
    const log = foldLog(events);
    const today = FIRST_DAY + 10;
    const course = courseOf(cards, log, WISH);
    const state = stateOf(course, cards, log, today);
    const { gains } = dayOf(course, state, today, today + AHEAD, kernel);
    for (const [n, { id, weight, shows }] of course.items.entries()) {
      const memory = log.memories.get(id) ?? null;
      const card = cards.find((one) => one.id === id) as Card;
      const unseen = shows && !memory && !log.met.has(card.lineId);
      const days = memory ? today - memory.lastDay : 0;
      const plain = weight * plainGain(memory, days, AHEAD, unseen);
      const ratio = (gains[n] ?? 0) / plain;
      expect(ratio).toBeGreaterThan(1 - 1e-4);
      expect(ratio).toBeLessThan(1.02 + 1e-4);
    }
  });

  it('is shuffled anew every day, so that no line becomes a cue for the next', () => {
    const log = foldLog(learn(cards, 8, WISH));
    const course = courseOf(cards, log, WISH);
    const state = stateOf(course, cards, log, FIRST_DAY + 10);
    const orderOn = (day: number) => dayOf(course, state, day, day + AHEAD, kernel).order;
    expect(orderOn(FIRST_DAY + 10)).not.toEqual(orderOn(FIRST_DAY + 11));
  });

  it('shares the weight of an interpolated line among what it depends on', () => {
    const { items, interpolated } = courseOf(cards, foldLog([]), WISH);
    const carried = items.filter(({ weight, kind }) => weight > 0.25 || kind === 'number');
    const all = carried.reduce((sum, { weight }) => sum + weight, 0);
    const lines = cards.filter(({ kind }) => kind === 'number');
    expect(interpolated.length).toBeGreaterThan(30);
    const worth = (card: Card) => [2, 1, 0.5][card.priority] ?? 1;
    expect(all).toBeCloseTo(
      lines.reduce((sum, card) => sum + worth(card), 0),
      6,
    );
  });

  it('puts a line of the first priority and an often used pattern first', () => {
    const two = cards.filter(({ kind }) => kind === 'number').slice(0, 2) as [Card, Card];
    const pair = two.map((card, n) => ({ ...card, priority: n === 0 ? 2 : 0 }));
    const next = nextStep(pair, foldLog([]), FIRST_DAY, { ...WISH, anchorsOnly: false });
    expect(next.step?.card.id).toBe(two[1].id);
    const [a, b] = [cards[0], cards.find(({ pattern }) => pattern !== cards[0]?.pattern)];
    const worth = (pattern: string) => (pattern === b?.pattern ? 2 : 1);
    const used = nextStep([a, b] as [Card, Card], foldLog([]), FIRST_DAY, { ...WISH, worth });
    expect(used.step?.card.id).toBe(b?.id);
  });
});

describe('patterns', () => {
  it('take turns while another pattern gains nearly as much', () => {
    holds(({ wish, days }) => {
      for (const { step, log, day } of days.flat()) {
        const course = courseOf(cards, log, wish);
        const state = stateOf(course, cards, log, day);
        const ahead = dayOf(course, state, day, day + AHEAD, kernel);
        const { gains } = ahead;
        const next = choose(course, state, ahead);
        const chosen = course.items[next];
        expect(chosen?.id).toBe(step.card.id);
        const memory = log.memories.get(step.card.id);
        const again = memory?.lastDay === day || log.met.get(step.card.lineId)?.day === day;
        if (again || chosen?.pattern !== state.lastPattern) continue;
        // Without the chosen pattern, the best of the others gains less than 0.7 of this.
        const order = ahead.order.filter((n) => course.items[n]?.pattern !== chosen.pattern);
        const best = choose(course, { ...state, again: new Set() }, { ...ahead, order });
        const other = course.items[best];
        if (!other) continue;
        expect(gains[best]).toBeLessThan(0.7 * (gains[next] as number));
      }
    });
  });
});
