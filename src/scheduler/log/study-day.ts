/** Study days. A study day begins at the local hour that the player chose, not at midnight UTC. */

const DAY = 86_400_000;
const HOUR = 3_600_000;
const MINUTE = 60_000;

/**
 * Returns the local study day of a time, in whole days since 1970-01-01.
 * @param at the time, in milliseconds since 1970-01-01 UTC
 * @param offsetMinutes how far the local clock is ahead of UTC at that time, in minutes
 * @param boundaryHour the local hour at which the study day begins, 0–23
 */
export function studyDay(at: number, offsetMinutes: number, boundaryHour: number): number {
  return Math.floor((at + offsetMinutes * MINUTE - boundaryHour * HOUR) / DAY);
}
