/** Planned sessions and the day itself as an iCalendar file (RFC 5545). */

import { hashOf } from '../../../cards/index.ts';
import { contentLine, textLine } from './calendar-text.ts';

export interface Calendar {
  /** Identifies the player: another player's file does not replace this one in a calendar. */
  readonly player: string;
  /** What the player calls the day. */
  readonly name: string;
  /** The day, and the first day with a session: days since 1970-01-01. */
  readonly day: number;
  readonly first: number;
  /** When a session begins: minutes after midnight, local time wherever the player is. */
  readonly time: number;
  /** How long a session lasts, minutes. */
  readonly minutes: number;
  /** When the file is made, milliseconds since 1970-01-01 UTC. */
  readonly at: number;
}

export const CALENDAR_TYPE = 'text/calendar;charset=utf-8';

const PRODUCT = '-//Throughline//Planned sessions//EN';

/**
 * One event that repeats daily up to the eve of the occasion, and one for its day. Their UIDs do
 * not depend on the plan, so that importing a later file moves the events in the calendar (RFC 5545
 * 3.8.4.7, 3.8.7.4).
 */
export function calendarOf(calendar: Calendar): string {
  const lines = [
    'BEGIN:VCALENDAR',
    'VERSION:2.0',
    contentLine('PRODID', PRODUCT),
    ...(calendar.first < calendar.day ? sessions(calendar) : []),
    ...theDay(calendar),
    'END:VCALENDAR',
  ];
  return lines.map((line) => `${line}\r\n`).join('');
}

/**
 * All as long as the player allows: the plan fills that time. Local times without a zone, so that a
 * session is at seven wherever the player is.
 */
function sessions(calendar: Calendar): readonly string[] {
  const { name, day, first, time, minutes } = calendar;
  return [
    'BEGIN:VEVENT',
    ...stamp(calendar, 'sessions'),
    contentLine('DTSTART', localTime(first, time)),
    contentLine('DURATION', `PT${minutes}M`),
    // Of the same type as DTSTART (RFC 5545 3.3.10): the last day with a session.
    contentLine('RRULE', `FREQ=DAILY;UNTIL=${localTime(day - 1, time)}`),
    textLine('SUMMARY', `Throughline: ${minutes} minutes`),
    textLine('DESCRIPTION', `Lines for ${name}. Today says what to ask.`),
    'BEGIN:VALARM',
    'ACTION:DISPLAY',
    textLine('DESCRIPTION', `${minutes} minutes of lines for ${name}`),
    'TRIGGER:PT0S',
    'END:VALARM',
    'END:VEVENT',
  ];
}

/** An event of the whole day, which does not mark the player as busy. */
function theDay(calendar: Calendar): readonly string[] {
  const { name, day } = calendar;
  return [
    'BEGIN:VEVENT',
    ...stamp(calendar, 'day'),
    contentLine('DTSTART;VALUE=DATE', date(day)),
    contentLine('DTEND;VALUE=DATE', date(day + 1)),
    textLine('SUMMARY', name),
    'TRANSP:TRANSPARENT',
    'END:VEVENT',
  ];
}

function stamp({ player, at }: Calendar, what: string): readonly string[] {
  return [
    contentLine('UID', `${what}-${hashOf(player).toString(36)}@throughline.invalid`),
    contentLine('DTSTAMP', instant(at)),
    // Minutes since 1970-01-01: it grows, and stays below 2³¹ for four thousand years.
    contentLine('SEQUENCE', String(Math.floor(at / 60_000))),
  ];
}

/** "20261219" */
function date(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10).replaceAll('-', '');
}

/** "20261219T190000" */
function localTime(day: number, minutes: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date(day)}T${two(Math.floor(minutes / 60))}${two(minutes % 60)}00`;
}

/** "20261125T213000Z" */
function instant(at: number): string {
  return `${new Date(at).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
}
