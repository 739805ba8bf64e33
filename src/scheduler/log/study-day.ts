/** Study-days: a player's day begins at their own boundary, not at midnight UTC. */

const DAY = 86_400_000;
const HOUR = 3_600_000;
const MINUTE = 60_000;

/**
 * The local study-day of an instant: whole days since 1970-01-01.
 * @param at milliseconds since 1970-01-01 UTC
 * @param offsetMinutes what the local clock is ahead of UTC at that instant
 * @param boundaryHour local hour at which the study-day begins, 0–23
 */
export function studyDay(at: number, offsetMinutes: number, boundaryHour: number): number {
  return Math.floor((at + offsetMinutes * MINUTE - boundaryHour * HOUR) / DAY);
}
