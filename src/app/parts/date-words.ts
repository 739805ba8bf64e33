/** Writes points in time in words, in the device's time zone. */

const FORMAT = new Intl.DateTimeFormat('en-GB', { dateStyle: 'medium', timeStyle: 'short' });

/**
 * Writes a point in time, for example "25 Nov 2026, 15:23".
 * @param at milliseconds since 1970-01-01 UTC
 */
export function dateWords(at: number): string {
  return FORMAT.format(at);
}
