/** Reads calendars with an independent reader, ical.js. */

import ICAL from 'ical.js';

/** The names of a file's events. */
export function eventsIn(file: string): readonly string[] {
  const calendar = new ICAL.Component(ICAL.parse(file));
  return calendar
    .getAllSubcomponents('vevent')
    .map((event) => String(event.getFirstPropertyValue('summary')));
}
