/** Writes planned sessions and the day of the occasion as an iCalendar file (RFC 5545). */

import { hashOf } from '../../../cards/index.ts';
import { contentLine, textLine } from './calendar-text.ts';

export interface Calendar {
  /**
   * Identifies the player, so that another player's file does not replace this one in a calendar.
   */
  readonly player: string;
  /** The player's name for the day. */
  readonly name: string;
  /** The day of the occasion, and the first day with a session, both in days since 1970-01-01. */
  readonly day: number;
  readonly first: number;
  /**
   * When a session begins, in minutes after midnight. This is local time wherever the player is.
   */
  readonly time: number;
  /** How long a session lasts, in minutes. */
  readonly minutes: number;
  /** When the file is made, in milliseconds since 1970-01-01 UTC. */
  readonly at: number;
}

export const CALENDAR_TYPE = 'text/calendar;charset=utf-8';

const PRODUCT = '-//Throughline//Planned sessions//EN';

/**
 * Writes two events: one that repeats daily until the day before the occasion, and one for its day.
 * Their UIDs do not depend on the plan, so importing a later file moves the events in the calendar
 * (RFC 5545 3.8.4.7, 3.8.7.4).
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
 * Writes the event for all sessions. Each lasts as long as the player allows, because the plan
 * fills that time. Its times are local times without a time zone, so that a session at seven is at
 * seven wherever the player is.
 */
function sessions(calendar: Calendar): readonly string[] {
  const { name, day, first, time, minutes } = calendar;
  return [
    'BEGIN:VEVENT',
    ...stamp(calendar, 'sessions'),
    contentLine('DTSTART', localTime(first, time)),
    contentLine('DURATION', `PT${minutes}M`),
    // UNTIL is the last day with a session, in the same type of value as DTSTART (RFC 5545 3.3.10).
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

/** Writes an event for the whole day, which does not mark the player as busy. */
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
    // Minutes since 1970-01-01, which only grow and stay below 2³¹ for four thousand years.
    contentLine('SEQUENCE', String(Math.floor(at / 60_000))),
  ];
}

/** Writes a date such as "20261219". */
function date(day: number): string {
  return new Date(day * 86_400_000).toISOString().slice(0, 10).replaceAll('-', '');
}

/** Writes a local time such as "20261219T190000". */
function localTime(day: number, minutes: number): string {
  const two = (value: number) => String(value).padStart(2, '0');
  return `${date(day)}T${two(Math.floor(minutes / 60))}${two(minutes % 60)}00`;
}

/** Writes a point in time in UTC, such as "20261125T213000Z". */
function instant(at: number): string {
  return `${new Date(at).toISOString().slice(0, 19).replaceAll(/[-:]/g, '')}Z`;
}
