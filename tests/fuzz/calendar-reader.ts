/** Calendars as another program reads them: ical.js. */

import ICAL from 'ical.js';

/** What the events of a file are called. */
export function eventsIn(file: string): readonly string[] {
  const calendar = new ICAL.Component(ICAL.parse(file));
  return calendar
    .getAllSubcomponents('vevent')
    .map((event) => String(event.getFirstPropertyValue('summary')));
}
