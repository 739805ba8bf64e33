import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { foldLog, studyDay } from '../../../src/scheduler/index.ts';
import { shuffled } from '../histories.ts';
import { answer } from '../making.ts';

/** Study-days of a device's answers, in the order of their numbers. */
const daysOf = (days: readonly number[]) =>
  [...foldLog(days.map((day, seq) => answer(seq, 'p/a', day))).events]
    .sort((a, b) => a.seq - b.seq)
    .map(({ day }) => day);

describe('a clock that was wrong', () => {
  it.each([
    ['never', [1, 1, 2, 5, 9], [1, 1, 2, 5, 9]],
    ['a year ahead for an evening', [100, 101, 466, 466, 102, 103], [100, 101, 101, 101, 102, 103]],
    ['ahead, and right for one answer since', [100, 101, 466, 102], [100, 101, 101, 102]],
    ['back to 1970 by a flat battery', [900, 901, 0, 0, 902], [900, 901, 901, 901, 902]],
    ['back now, against more days before', [900, 901, 5], [900, 901, 901]],
    [
      'ahead, until that day has come',
      [100, 106, 101, 102, 103, 104, 105],
      [100, 100, 101, 102, 103, 104, 105],
    ],
    ['a traveler’s, a day back', [100, 101, 100, 101], [100, 101, 100, 101]],
  ])('%s', (_name, dated, right) => {
    expect(daysOf(dated)).toEqual(right);
  });

  it('of one device does not affect another’s', () => {
    const log = foldLog([
      answer(0, 'p/a', 100),
      answer(1, 'p/a', 500),
      answer(2, 'p/a', 101),
      answer(0, 'p/b', 400, 'b'),
    ]);
    expect([...log.events].map(({ id, day }) => [id, day])).toEqual([
      ['a:0', 100],
      ['a:1', 100],
      ['a:2', 101],
      ['b:0', 400],
    ]);
  });

  it('does not keep a card from falling due for a year', () => {
    const log = foldLog([answer(0, 'p/a', 100), answer(1, 'p/a', 465), answer(2, 'p/b', 101)]);
    expect(log.memories.get('p/a')?.lastDay).toBe(100);
  });

  it('is found in whatever order the events arrive', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(40), { maxLength: 30 }), fc.integer(), (days, seed) => {
        const events = days.map((day, seq) => answer(seq, `p/${seq % 3}`, day));
        const again = foldLog(shuffled(events, seed));
        expect(again.events).toEqual(foldLog(events).events);
      }),
    );
  });

  it('is corrected to days that run forward, but for a traveler’s', () => {
    fc.assert(
      fc.property(fc.array(fc.nat(400), { minLength: 1, maxLength: 40 }), (days) => {
        const right = daysOf(days);
        for (const [n, day] of right.entries()) {
          expect(day).toBeGreaterThanOrEqual((right[n - 1] ?? 0) - 1);
        }
        // No day is invented.
        for (const day of right) expect(days).toContain(day);
      }),
    );
  });
});

describe('study-days', () => {
  const zones = ['Pacific/Auckland', 'America/St_Johns', 'Europe/Berlin', 'America/Los_Angeles'];

  it.each(zones)('in %s advance by one a day through a year with daylight saving', (zone) => {
    const evening = Date.UTC(2026, 0, 1, 12);
    const days = Array.from({ length: 400 }, (_, n) => {
      const at = evening + n * 86_400_000;
      return studyDay(at, offsetIn(zone, at), 4);
    });
    const [first = 0] = days;
    expect(days).toEqual(days.map((_, n) => first + n));
  });

  it('never run back on a device that stays in its zone, whatever the boundary', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...zones),
        fc.integer({ min: 0, max: 23 }),
        fc.integer({ min: 1_767_225_600_000, max: 1_798_761_600_000 }),
        // More than the hour that repeats when summer ends.
        fc.integer({ min: 3_600_000, max: 90_000_000 }),
        (zone, boundary, at, later) => {
          const first = studyDay(at, offsetIn(zone, at), boundary);
          const next = studyDay(at + later, offsetIn(zone, at + later), boundary);
          expect(next).toBeGreaterThanOrEqual(first);
          expect(next - first).toBeLessThanOrEqual(2);
        },
      ),
    );
  });
});

/** Minutes that a zone is ahead of UTC, by the platform's own calendar (ECMA-402). */
function offsetIn(zone: string, at: number): number {
  const parts = new Intl.DateTimeFormat('en-US', {
    timeZone: zone,
    hourCycle: 'h23',
    year: 'numeric',
    month: 'numeric',
    day: 'numeric',
    hour: 'numeric',
    minute: 'numeric',
  }).formatToParts(at);
  const of = (type: string) => Number(parts.find((part) => part.type === type)?.value);
  const local = Date.UTC(of('year'), of('month') - 1, of('day'), of('hour'), of('minute'));
  return Math.round((local - Math.floor(at / 60_000) * 60_000) / 60_000);
}
