import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { addToLog, foldLog, type LogEvent, PUBLISHED } from '../../../src/scheduler/index.ts';
import { middleOf, type Trials } from '../../../src/scheduler/log/trials.ts';
import { historyArb, shuffled } from '../histories.ts';
import { answer, base, GIVEN, judged, said } from '../making.ts';

const NUMBER = 'harbour-lane/cross-side/3/left-side/medium/number';
const OTHER = 'harbour-lane/up-and-back/3/left-side/medium/number';
/** FSRS-6: the stabilities of first answers are the first weights. */
const FIRST = [
  { outcome: 'rattled', stability: PUBLISHED.weights[1] as number },
  { outcome: 'pocketed', stability: PUBLISHED.weights[2] as number },
  { outcome: 'dead center', stability: PUBLISHED.weights[3] as number },
] as const;
/** Up to e^4 stabilities of the shortest; later answers are in the last bin. */
const daysArb = fc.integer({ min: 1, max: 70 });
const missed = (seq: number, card: string, day: number): LogEvent => ({
  ...answer(seq, card, day),
  outcome: 'off',
});

describe('trials', () => {
  it('have first answers in bin 0, by kind, whatever the pattern', () => {
    const window = { ...answer(3, 'p/w', 102), kind: 'window' } as const;
    const { kinds, patterns } = foldLog([
      answer(1, NUMBER, 100),
      missed(2, OTHER, 101),
      window,
    ]).trials;
    expect(kinds.get('number')).toEqual({ right: [1], all: [2] });
    expect(kinds.get('window')).toEqual({ right: [1], all: [1] });
    expect(patterns.size).toBe(0);
  });

  it('have later answers in the bin of their days and stability', () => {
    fc.assert(
      fc.property(fc.constantFrom(...FIRST), daysArb, fc.boolean(), (first, days, right) => {
        const later = right ? answer(2, NUMBER, 100 + days) : missed(2, NUMBER, 100 + days);
        const log = foldLog([{ ...answer(1, NUMBER, 100), outcome: first.outcome }, later]);
        const tallies = log.trials.kinds.get('number');
        const { all = [], right: known = [] } = tallies ?? {};
        expect([all[0], sumOf(all)]).toEqual([1, 2]);
        expect(sumOf(known)).toBe(right ? 2 : 1);
        const bin = all.lastIndexOf(1);
        expect(bin).toBeGreaterThan(0);
        const middle = middleOf(bin);
        // A class of stabilities is 3 times as wide as the one before, and ratios rise by e^0.4.
        const { stability } = first;
        expect(Math.abs(Math.log(stability / middle.stability))).toBeLessThan(Math.log(3) / 2);
        const ratio = days / stability / (middle.days / middle.stability);
        expect(Math.abs(Math.log(ratio))).toBeLessThan(0.2 + 1e-9);
      }),
    );
  });

  it('have all answers that come later still in the last bin', () => {
    const binAfter = (days: number) =>
      foldLog([answer(1, NUMBER, 100), answer(2, NUMBER, 100 + days)]).trials.kinds.get('number')
        ?.all.length;
    expect(binAfter(127)).toBe(binAfter(5000));
    expect(binAfter(60)).toBeLessThan(binAfter(127) ?? 0);
  });

  it('sum up by pattern how many were right and how many should be', () => {
    const events = [answer(1, NUMBER, 100), answer(2, NUMBER, 104), missed(3, OTHER, 104)];
    const first = foldLog(events.slice(0, 1)).memories.get(NUMBER);
    const recall = PUBLISHED.recall(first ?? { stability: Number.NaN }, 4);
    const { patterns } = foldLog(events).trials;
    expect([...patterns]).toEqual([['cross-side', { right: 1, expected: recall }]]);
  });

  it('do not count a second answer on one day', () => {
    const once = foldLog([missed(1, NUMBER, 100), answer(3, NUMBER, 104)]);
    const twice = [missed(1, NUMBER, 100), answer(2, NUMBER, 100), answer(3, NUMBER, 104)];
    const again = [...twice, answer(4, NUMBER, 104), missed(5, NUMBER, 104)];
    expect(countOf(once.trials)).toBe(2);
    expect(countOf(foldLog(twice).trials)).toBe(2);
    expect(foldLog(again).trials).toEqual(foldLog(twice).trials);
  });

  it('do not count answers that were taken back', () => {
    const kept = [answer(1, NUMBER, 100), answer(2, NUMBER, 103)];
    const back = [missed(3, NUMBER, 107), said(base(4, 107), 'taken back', { answered: 'a:3' })];
    expect(foldLog([...kept, ...back]).trials).toEqual(foldLog(kept).trials);
    expect([...kept, ...back].reduce(addToLog, foldLog([])).trials).toEqual(foldLog(kept).trials);
  });

  it('do not count what the app did not grade, but the day of it', () => {
    const proof = said(base(1, 100), 'proved', { ...GIVEN, card: NUMBER, implied: false });
    const { trials } = foldLog([proof, judged(2, OTHER, 103, true)]);
    expect(trials).toEqual({
      kinds: new Map(),
      patterns: new Map(),
      days: { first: 100, last: 103, came: 2 },
    });
  });

  it('count the study days with an answer', () => {
    expect(foldLog([]).trials.days).toBeNull();
    const days = [100, 100, 101, 105, 105, 109];
    const events = days.map((day, n) => answer(n, n % 2 ? NUMBER : OTHER, day));
    const note = said(base(9, 107, 'b'), 'noted', { line: 'p', text: 'thin' });
    const { trials } = foldLog([...events, note]);
    expect(trials.days).toEqual({ first: 100, last: 109, came: 4 });
  });

  it('depend neither on the order of merging nor on whether events come one by one', () => {
    fc.assert(
      fc.property(historyArb, fc.nat(), (events, seed) => {
        const { trials } = foldLog(events);
        expect(foldLog(shuffled(events, seed)).trials).toEqual(trials);
        expect(shuffled(events, seed).reduce(addToLog, foldLog([])).trials).toEqual(trials);
      }),
      { numRuns: 500 },
    );
  });

  it('have at most as many right answers as answers, and no more answers than were given', () => {
    let counted = 0;
    fc.assert(
      fc.property(historyArb, (events) => {
        const { trials } = foldLog(events);
        for (const { right, all } of trials.kinds.values()) {
          expect(right).toHaveLength(all.length);
          expect(right.every((one, n) => one <= (all[n] ?? 0))).toBe(true);
        }
        expect(countOf(trials)).toBeLessThanOrEqual(questionsIn(events));
        counted += countOf(trials);
      }),
      { numRuns: 500 },
    );
    expect(counted).toBeGreaterThan(100);
  });

  it('of a state stay as they are when an event is added to it', () => {
    const before = foldLog([answer(1, NUMBER, 100)]);
    const copy = structuredClone(before.trials);
    addToLog(before, answer(2, NUMBER, 103));
    expect(before.trials).toEqual(copy);
  });
});

function sumOf(counts: readonly number[]): number {
  return counts.reduce((sum, one) => sum + one, 0);
}

function countOf({ kinds }: Trials): number {
  return sumOf([...kinds.values()].map(({ all }) => sumOf(all)));
}

/** Answers, and the questions of rehearsals. */
function questionsIn(events: readonly LogEvent[]): number {
  return sumOf(
    events.map((event) => {
      if (event.type === 'rehearsed') return event.questions.length;
      const counts = event.type === 'drilled' && event.counts !== undefined;
      return event.type === 'answered' || counts ? 1 : 0;
    }),
  );
}
