/** Finds when planned sessions begin, by the device's own clock. */

/**
 * Returns the minutes after midnight of "19:05", the value of a time field. Null for any other
 * text.
 */
export function clockTime(text: string): number | null {
  const [, hours, minutes] = /^([01]\d|2[0-3]):([0-5]\d)$/.exec(text) ?? [];
  return hours && minutes ? 60 * Number(hours) + Number(minutes) : null;
}

/**
 * Returns the first day on which a session at this time is still to come. This is today or
 * tomorrow, in whole calendar days since 1970-01-01.
 */
export function firstSession(now: Date, time: number): number {
  const midnight = Date.UTC(now.getFullYear(), now.getMonth(), now.getDate());
  const past = 60 * now.getHours() + now.getMinutes();
  return midnight / 86_400_000 + (time > past ? 0 : 1);
}
