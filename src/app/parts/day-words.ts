/** Study-days as a player reads them, whatever the zone the device is in now. */

const DAY = 86_400_000;

/** So far ahead a day is told apart by its year, days. */
const NEXT_YEAR = 300;

/** "25 Nov". @param day whole days since 1970-01-01 */
export function dayWords(day: number): string {
  return inWords(day, { day: 'numeric', month: 'short' });
}

/** "Saturday 19 December"; with its year if that is not plain. */
export function longDayWords(day: number, today: number): string {
  const far = Math.abs(day - today) > NEXT_YEAR;
  const year = far ? ({ year: 'numeric' } as const) : {};
  // Without the comma that some locales' data put after the weekday.
  return inWords(day, { weekday: 'long', day: 'numeric', month: 'long', ...year }).replace(',', '');
}

/** "2026-12-19", as a field for a date has it. */
export function isoDay(day: number): string {
  return new Date(day * DAY).toISOString().slice(0, 10);
}

/** Null for what is no day of the calendar. */
export function dayFromIso(text: string): number | null {
  if (!/^\d{4}-\d{2}-\d{2}$/.test(text)) return null;
  const at = Date.parse(`${text}T00:00:00Z`);
  // A day past the end of its month may be read as one of the next.
  return Number.isNaN(at) || isoDay(at / DAY) !== text ? null : at / DAY;
}

function inWords(day: number, options: Intl.DateTimeFormatOptions): string {
  return new Date(day * DAY).toLocaleDateString('en-GB', { ...options, timeZone: 'UTC' });
}
