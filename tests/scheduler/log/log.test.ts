import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type Answered,
  addToLog,
  compareEvents,
  foldLog,
  isAnswer,
  type LogEvent,
  lastEvent,
  mergeLogs,
  PUBLISHED,
  studyDay,
} from '../../../src/scheduler/index.ts';
import { historyArb, shuffled } from '../histories.ts';
import { answer, base } from '../making.ts';
import { plain } from '../plain.ts';

const { remember } = PUBLISHED;

describe('the log', () => {
  it('folds to the same state, in whatever order its events arrive', () => {
    fc.assert(
      fc.property(historyArb, fc.integer(), (events, seed) => {
        expect(plain(foldLog(shuffled(events, seed)))).toEqual(plain(foldLog(events)));
      }),
    );
  });

  it('merges by union: in any order, any number of times', () => {
    fc.assert(
      fc.property(historyArb, historyArb, (first, other) => {
        const b = other.map((event) => ({ ...event, device: 'c', id: `c:${event.seq}` }));
        expect(mergeLogs(first, b)).toEqual(mergeLogs(b, first));
        expect(mergeLogs(mergeLogs(first, b), b)).toEqual(mergeLogs(first, b));
      }),
    );
  });

  it('gives the same state by adding an event of any type as by folding all of them', () => {
    fc.assert(
      fc.property(historyArb, fc.integer(), (events, seed) => {
        const inOrder = [...events].sort(compareEvents);
        for (const arriving of [inOrder, events, shuffled(events, seed)]) {
          const grown = arriving.reduce((log, event) => addToLog(log, event), foldLog([]));
          expect(plain(grown)).toEqual(plain(foldLog(events)));
        }
        const [first] = events;
        if (first) {
          expect(plain(addToLog(foldLog(events), first))).toEqual(plain(foldLog(events)));
        }
      }),
    );
  });

  it('leaves the earlier state as it was when an event is added', () => {
    fc.assert(
      fc.property(historyArb, (events) => {
        const inOrder = [...events].sort(compareEvents);
        const before = foldLog(inOrder.slice(0, -1));
        const last = inOrder.at(-1);
        if (last) addToLog(before, last);
        expect(plain(before)).toEqual(plain(foldLog(inOrder.slice(0, -1))));
      }),
    );
  });

  it('forgets an answer that was taken back', () => {
    const before = [answer(1, 'a', 0), answer(2, 'b', 1)];
    const undone: LogEvent = { ...base(4, 3), type: 'taken back', answered: 'a:3' };
    const after = foldLog([...before, answer(3, 'a', 3), undone]);
    expect(plain(after).memories).toEqual(plain(foldLog(before)).memories);
    expect(lastEvent(after, 3, isAnswer)?.id).toBe('a:2');
  });

  it('lets only answers be taken back', () => {
    const met: LogEvent = { ...base(1, 0), type: 'met', line: 'p' };
    const note: LogEvent = { ...base(2, 0), type: 'noted', line: 'p', text: 'the long one' };
    const back = (seq: number, answered: string): LogEvent => ({
      ...base(seq, 1),
      type: 'taken back',
      answered,
    });
    const { met: lines, notes } = foldLog([met, note, back(3, 'a:1'), back(4, 'a:2')]);
    expect([...lines.keys()]).toEqual(['p']);
    expect(notes.get('p')).toBe('the long one');
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

  it('does not count the time of a "show me" as pace', () => {
    const shown: Answered = { ...answer(2, 'b', 1), answer: null, errors: null, outcome: 'off' };
    expect(foldLog([answer(1, 'a', 1), shown]).times.get('number')).toEqual([1000]);
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
