/** Writes study days in words, independent of the device's time zone. */

const DAY = 86_400_000;

/** A day that is more than this many days away is written with its year. */
const NEXT_YEAR = 300;

/**
 * Writes a day, for example "25 Nov".
 * @param day whole days since 1970-01-01
 */
export function dayWords(day: number): string {
  return inWords(day, { day: 'numeric', month: 'short' });
}

/** Writes a day, for example "Saturday 19 December", with its year if it is far away. */
export function longDayWords(day: number, today: number): string {
  const far = Math.abs(day - today) > NEXT_YEAR;
  const year = far ? ({ year: 'numeric' } as const) : {};
  // Some locale data put a comma after the weekday.
  return inWords(day, { weekday: 'long', day: 'numeric', month: 'long', ...year }).replace(',', '');
}

/** Writes a day as the value of a date field, for example "2026-12-19". */
export function isoDay(day: number): string {
  return new Date(day * DAY).toISOString().slice(0, 10);
}

/** Reads the value of a date field; null if the text is not a calendar day. */
export function dayFromIso(text: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const at = Date.parse(`${text}T00:00:00Z`);
  // For a day past the end of its month, Date.parse may return a day of the next month.
  return Number.isNaN(at) || isoDay(at / DAY) !== text ? null : at / DAY;
}

function inWords(day: number, options: Intl.DateTimeFormatOptions): string {
  return new Date(day * DAY).toLocaleDateString('en-GB', { ...options, timeZone: 'UTC' });
}
