import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Answered,
  addToLog,
  foldLog,
  isAnswer,
  type LogEvent,
  lastEvent,
  mergeLogs,
  parseEvent,
  remember,
  studyDay,
} from '../../src/scheduler/index.ts';

describe('the log', () => {
  it('folds to the same state in whatever order its events arrive', () => {
    fc.assert(
      fc.property(logArb, fc.integer(), (events, seed) => {
        const shuffled = [...events].sort(
          (a, b) => ((a.seq * 7919 + seed) % 13) - ((b.seq * 7919 + seed) % 13),
        );
        expect(foldLog(shuffled)).toEqual(foldLog(events));
      }),
    );
  });

  it('merges by union: in any order, any number of times', () => {
    fc.assert(
      fc.property(logArb, logArb, (first, other) => {
        const b = other.map((event) => ({ ...event, device: 'b', id: `b:${event.seq}` }));
        expect(mergeLogs(first, b)).toEqual(mergeLogs(b, first));
        expect(mergeLogs(mergeLogs(first, b), b)).toEqual(mergeLogs(first, b));
      }),
    );
  });

  it('grows by one event to the same state as folding all of them', () => {
    fc.assert(
      fc.property(logArb, fc.integer(), (events, seed) => {
        const order = [...events].sort(
          (a, b) => ((a.seq * 7919 + seed) % 5) - ((b.seq * 7919 + seed) % 5),
        );
        for (const arriving of [events, order]) {
          const grown = arriving.reduce((log, event) => addToLog(log, event), foldLog([]));
          expect(grown).toEqual(foldLog(events));
        }
        const [first] = events;
        if (first) expect(addToLog(foldLog(events), first)).toEqual(foldLog(events));
      }),
    );
  });

  it('forgets an answer that was taken back, as if it had never been', () => {
    const before = [answer(1, 'a', 0), answer(2, 'b', 1)];
    const undone: LogEvent = { ...base(4, 3), type: 'taken back', answered: 'a:3' };
    const after = foldLog([...before, answer(3, 'a', 3), undone]);
    expect(after.memories).toEqual(foldLog(before).memories);
    expect(lastEvent(after, 3, isAnswer)?.id).toBe('a:2');
  });

  it('is a fold of FSRS over differences of study-days', () => {
    const { memories } = foldLog([answer(1, 'a', 10), answer(2, 'a', 12), answer(3, 'a', 20)]);
    const expected = remember(
      remember(remember(null, 0, 'pocketed'), 2, 'pocketed'),
      8,
      'pocketed',
    );
    expect(memories.get('a')).toMatchObject(expected);
    expect(memories.get('a')).toMatchObject({ firstDay: 10, lastDay: 20, answers: 3 });
  });

  it('does not take the time of a "show me" for the player’s pace', () => {
    const shown: Answered = { ...answer(2, 'b', 1), answer: null, errors: null, outcome: 'off' };
    expect(foldLog([answer(1, 'a', 1), shown]).times.get('number')).toEqual([1000]);
  });
});

describe('events at the border', () => {
  it('survive being written and read', () => {
    fc.assert(
      fc.property(logArb, (events) => {
        for (const event of events) {
          expect(parseEvent(JSON.parse(JSON.stringify(event)))).toEqual({ ok: true, event });
        }
      }),
    );
  });

  it.each([
    ['nothing', null, 'not an event'],
    ['a list', [], 'not an event'],
    ['a future version', { ...answer(1, 'a', 1), version: 2 }, 'future version'],
    ['an id of another device', { ...answer(1, 'a', 1), id: 'x:1' }, 'not an event'],
    ['an unknown outcome', { ...answer(1, 'a', 1), outcome: 'superb' }, 'not an event'],
    ['half a day', { ...answer(1, 'a', 1), day: 1.5 }, 'not an event'],
    ['a time before 1970', { ...answer(1, 'a', 1), at: -1 }, 'not an event'],
    ['a number that is none', { ...answer(1, 'a', 1), answer: [Number.NaN] }, 'not an event'],
    ['a type of its own', { ...answer(1, 'a', 1), type: 'won' }, 'not an event'],
  ])('refuse %s', (_name, data, code) => {
    expect(parseEvent(data)).toEqual({ ok: false, code });
  });

  it('never throw, whatever comes', () => {
    fc.assert(fc.property(fc.anything(), (data) => parseEvent(data).ok === false));
  });
});

describe('study-days', () => {
  const HOUR = 3_600_000;
  // 2026-03-29 00:00 UTC is day 20541 of the Unix epoch (by the calendar: 56 years, 14 leap days,
  // and 87 days: 56·365 + 14 + 87).
  const midnight = 20_541 * 24 * HOUR;

  it('change at the player’s own boundary, not at midnight UTC', () => {
    expect(midnight).toBe(Date.UTC(2026, 2, 29));
    expect(studyDay(midnight + 3.9 * HOUR, 0, 4)).toBe(20_540);
    expect(studyDay(midnight + 4 * HOUR, 0, 4)).toBe(20_541);
    expect(studyDay(midnight, 600, 4)).toBe(20_541);
    expect(studyDay(midnight, -300, 4)).toBe(20_540);
  });

  it('stay whole when the clock springs forward at night', () => {
    // Central European clocks went from +60 to +120 minutes at 01:00 UTC on that day.
    const before = studyDay(midnight + 0.9 * HOUR, 60, 4);
    const after = studyDay(midnight + 1.1 * HOUR, 120, 4);
    expect([before, after]).toEqual([20_540, 20_540]);
  });
});

function base(seq: number, day: number) {
  return { version: 1 as const, id: `a:${seq}`, device: 'a', seq, day, at: day * 86_400_000 + seq };
}

function answer(seq: number, card: string, day: number): Answered {
  return {
    ...base(seq, day),
    type: 'answered',
    card,
    kind: 'number',
    answer: [2.3],
    errors: [0],
    outcome: 'pocketed',
    ms: 1000,
  };
}

const eventArb = fc.record({
  card: fc.constantFrom('p/a', 'p/b', 'q/c'),
  gap: fc.nat(5),
  outcome: fc.constantFrom('off', 'rattled', 'pocketed', 'dead center' as const),
  back: fc.boolean(),
});

/** Any history of one device: answers, some of them taken back. */
const logArb: fc.Arbitrary<LogEvent[]> = fc.array(eventArb, { maxLength: 12 }).map((items) => {
  const events: LogEvent[] = [];
  let day = 100;
  for (const item of items) {
    day += item.gap;
    const seq = events.length;
    events.push({ ...answer(seq, item.card, day), outcome: item.outcome as Answered['outcome'] });
    if (item.back) {
      events.push({ ...base(seq + 1, day), type: 'taken back', answered: `a:${seq}` });
    }
  }
  return events;
});
