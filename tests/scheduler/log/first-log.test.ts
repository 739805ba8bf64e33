import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import {
  DEFAULT_WEIGHTS,
  foldLog,
  type LogEvent,
  parseEvent,
} from '../../../src/scheduler/index.ts';

/** A log as the first version stored it, with its three types; written by hand. */
const records = JSON.parse(
  readFileSync('tests/scheduler/log/fixtures/first-log.json', 'utf8'),
) as readonly unknown[];
const LINE = 'harbour-lane/cross-side/3/left-side';

describe('a log of the first three types of event', () => {
  const events = records.map((record): LogEvent => {
    const parsed = parseEvent(record);
    if (!parsed.ok) throw new Error(`cannot be read: ${JSON.stringify(record)}`);
    return parsed.event;
  });
  const log = foldLog(events);

  it('reads as it was written', () => {
    expect(events).toEqual(records);
  });

  it('folds to the published memory', () => {
    // FSRS-6 vector of open-spaced-repetition: grades 1, 3, 3, 3, 3, 3 at gaps 0, 0, 1, 3, 8, 21,
    // which are the outcomes and days of this card without the answer that was taken back.
    const memory = log.memories.get(`${LINE}/medium/number`);
    expect(memory?.stability).toBeCloseTo(53.62691, 4);
    expect(memory?.difficulty).toBeCloseTo(6.3574867, 5);
    // Counted by hand. Steps: met 0, number 1, 2 and 3, window 4, number 5, 6 and 7.
    expect(memory).toMatchObject({
      firstDay: 20_000,
      lastDay: 20_033,
      lastOutcome: 'pocketed',
      answers: 6,
      missesInARow: 0,
      lastStep: 7,
    });
  });

  it('folds the card that was shown to a first answer off', () => {
    const memory = log.memories.get(`${LINE}/medium/window`);
    // The same source: S0(1) is the first weight, D0(1) = 6.4133.
    expect(memory?.stability).toBe(DEFAULT_WEIGHTS[0]);
    expect(memory?.difficulty).toBeCloseTo(6.4133, 7);
    expect(memory).toMatchObject({ lastOutcome: 'off', answers: 1, missesInARow: 1, lastStep: 4 });
  });

  it('keeps met lines, steps and pace, and has none of the newer marks', () => {
    expect([...log.met]).toEqual([[LINE, { day: 20_000, step: 0 }]]);
    expect(log.steps).toBe(8);
    expect([...log.times]).toEqual([['number', [9000, 8000, 7000, 6000, 5000, 4500]]]);
    expect([log.aside.size, log.notes.size, log.flags.size]).toEqual([0, 0, 0]);
  });
});
