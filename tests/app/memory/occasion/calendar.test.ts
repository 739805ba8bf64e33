import fc from 'fast-check';
import ICAL from 'ical.js';
import { describe, expect, it } from 'vitest';
import { type Calendar, calendarOf } from '../../../../src/app/memory/occasion/calendar.ts';
import { clockTime, firstSession } from '../../../../src/app/memory/occasion/session-time.ts';

// ical.js 2.2.1 reads what we write: an implementation of RFC 5545 that is not ours.

/** 2026-11-25 is day 20 782 and 2026-12-19 day 20 806 (Unix days: by `date -d … +%s`). */
const NOV_25 = 20_782;
const DEC_19 = 20_806;

const calendar: Calendar = {
  player: '',
  name: 'Harbour Lane Open',
  day: DEC_19,
  first: NOV_25,
  time: 19 * 60 + 5,
  minutes: 10,
  at: Date.UTC(2026, 10, 25, 15, 30, 20),
};

describe('the calendar file', () => {
  it('reads in another program as daily sessions up to the eve, and the day', () => {
    const [sessions, day] = eventsIn(calendarOf(calendar));
    const [start, ...more] = occurrences(sessions);
    expect(start).toBe('2026-11-25T19:05:00');
    expect(more).toHaveLength(23);
    expect(more.at(-1)).toBe('2026-12-18T19:05:00');
    expect(sessions?.duration.toString()).toBe('PT10M');
    expect(day?.startDate.toString()).toBe('2026-12-19');
    expect(day?.startDate.isDate).toBe(true);
    expect(day?.endDate.toString()).toBe('2026-12-20');
    expect(day?.summary).toBe('Harbour Lane Open');
  });

  it('names no zone: a session is at the same time of day wherever the player is', () => {
    const [sessions] = eventsIn(calendarOf(calendar));
    expect(sessions?.startDate.zone).toBe(ICAL.Timezone.localTimezone);
    expect(calendarOf(calendar)).not.toContain('TZID');
  });

  it('rings when a session begins', () => {
    const [sessions] = eventsIn(calendarOf(calendar));
    const alarm = sessions?.component.getFirstSubcomponent('valarm');
    expect(alarm?.getFirstPropertyValue('action')).toBe('DISPLAY');
    const trigger = alarm?.getFirstPropertyValue('trigger') as ICAL.Duration;
    expect(trigger.toSeconds()).toBe(0);
    expect(alarm?.getFirstPropertyValue('description')).toBe(
      '10 minutes of lines for Harbour Lane Open',
    );
  });

  it('replaces an earlier one, whatever has changed', () => {
    const before = eventsIn(calendarOf(calendar));
    const later = { ...calendar, name: 'Quay Cup', day: 20_900, minutes: 25, time: 0 };
    const after = eventsIn(calendarOf({ ...later, at: calendar.at + 60_000 }));
    expect(after.map(({ uid }) => uid)).toEqual(before.map(({ uid }) => uid));
    for (const [n, event] of after.entries()) {
      expect(event.sequence).toBeGreaterThan(before[n]?.sequence ?? 0);
    }
  });

  it('of another player does not replace it', () => {
    const uids = (player: string) =>
      eventsIn(calendarOf({ ...calendar, player })).map(({ uid }) => uid);
    const all = [...uids('Ines'), ...uids('Tomas')];
    expect(new Set(all).size).toBe(4);
  });

  it('has no session if the first would be on the day itself', () => {
    const events = eventsIn(calendarOf({ ...calendar, first: DEC_19 }));
    expect(events.map(({ summary }) => summary)).toEqual(['Harbour Lane Open']);
  });

  it('has one session if only the eve is left', () => {
    const [sessions] = eventsIn(calendarOf({ ...calendar, first: DEC_19 - 1 }));
    expect(occurrences(sessions)).toEqual(['2026-12-18T19:05:00']);
  });
});

describe('any name of the occasion', () => {
  const HOSTILE: readonly (readonly [string, string, string])[] = [
    ['commas and semicolons', 'Open, final; last', 'Open, final; last'],
    ['backslashes', 'C:\\new\\,x', 'C:\\new\\,x'],
    ['line breaks of all sorts', 'a\nb\r\nc\rd', 'a\nb\nc\nd'],
    [
      'a calendar of its own',
      'x\r\nEND:VEVENT\r\nBEGIN:VCALENDAR',
      'x\nEND:VEVENT\nBEGIN:VCALENDAR',
    ],
    ['a parameter', 'X;VALUE=DATE:20260101', 'X;VALUE=DATE:20260101'],
    ['colons and quotes', '"Open": the "final"', '"Open": the "final"'],
    ['control characters', 'a\u0000b\u0007c\u007fd\te', 'abcd\te'],
    ['half a pair', 'a\ud83cb', 'a\ufffdb'],
    ['emoji at the fold', `${'x'.repeat(64)}🎱🎱🎱🎱`, `${'x'.repeat(64)}🎱🎱🎱🎱`],
    ['letters of three octets', '東'.repeat(60), '東'.repeat(60)],
    ['nothing', '', ''],
    ['spaces at the fold', `${'x'.repeat(66)}   y`, `${'x'.repeat(66)}   y`],
  ];
  it.each(HOSTILE)('is read back, and nothing else: %s', (_, name, read) => {
    const text = calendarOf({ ...calendar, name });
    const events = eventsIn(text);
    expect(events).toHaveLength(2);
    expect(events[1]?.summary ?? '').toBe(read);
    expectWellFormed(text);
  });

  it('makes no line longer than 75 octets, cuts no character, and ends every line in CRLF', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 120 }), (name) => {
        const text = calendarOf({ ...calendar, name });
        expectWellFormed(text);
        expect(eventsIn(text)).toHaveLength(2);
      }),
      { seed: 6, numRuns: 300 },
    );
  });

  it('comes back unchanged without control characters', () => {
    const name = fc
      .string({ unit: 'grapheme', maxLength: 90 })
      .filter((one) => !/[\p{Cc}\p{Cs}]/u.test(one));
    fc.assert(
      fc.property(name, (one) => {
        const [, day] = eventsIn(calendarOf({ ...calendar, name: one }));
        expect(day?.summary ?? '').toBe(one);
      }),
      { seed: 7, numRuns: 300 },
    );
  });
});

describe('the first session', () => {
  it.each([
    ['00:00', 0],
    ['07:05', 425],
    ['23:59', 1439],
    ['', null],
    ['24:00', null],
    ['7:05', null],
    ['19:60', null],
    ['19:05:30', null],
  ])('%j is %s minutes after midnight', (text, minutes) => {
    expect(clockTime(text)).toBe(minutes);
  });

  it('is today until the time has passed, then tomorrow, by the local clock', () => {
    const now = new Date(2026, 10, 25, 18, 30);
    expect(firstSession(now, 18 * 60 + 31)).toBe(NOV_25);
    expect(firstSession(now, 18 * 60 + 30)).toBe(NOV_25 + 1);
    expect(firstSession(new Date(2026, 10, 25, 0, 10), 0)).toBe(NOV_25 + 1);
  });
});

/** RFC 5545 3.1: CRLF after every line and nowhere else, at most 75 octets a line. */
function expectWellFormed(text: string): void {
  expect(text.endsWith('\r\n')).toBe(true);
  expect(text.replaceAll('\r\n', '')).not.toMatch(/[\r\n]/);
  const octets = Buffer.from(text, 'utf8');
  // A lone surrogate would come back as another character.
  expect(octets.toString('utf8')).toBe(text);
  for (const line of text.split('\r\n')) {
    expect(Buffer.byteLength(line, 'utf8')).toBeLessThanOrEqual(75);
  }
}

function eventsIn(text: string): readonly ICAL.Event[] {
  const root = new ICAL.Component(ICAL.parse(text));
  expect(root.name).toBe('vcalendar');
  return root.getAllSubcomponents('vevent').map((one) => new ICAL.Event(one));
}

function occurrences(event: ICAL.Event | undefined): readonly string[] {
  const starts: string[] = [];
  const all = event?.iterator();
  for (let next = all?.next(); next; next = all?.next()) starts.push(next.toString());
  return starts;
}
