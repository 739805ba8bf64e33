/** How many answers there were in each week. */

/** How many answers a day or a week has, by its first study day. */
export interface LoadDay {
  readonly day: number;
  readonly answers: number;
}

const WEEK = 7;

/**
 * Weeks by their first day, from the week of the first answer on; the last one ends today. Days
 * after today, from a clock that was ahead, count as today.
 * @param days study-days, one for each answer, in any order
 */
export function byWeek(days: Iterable<number>, today: number): readonly LoadDay[] {
  const counts = new Map<number, number>();
  for (const day of days) {
    const ago = Math.max(0, Math.floor((today - day) / WEEK));
    counts.set(ago, (counts.get(ago) ?? 0) + 1);
  }
  const first = [...counts.keys()].reduce((a, b) => Math.max(a, b), -1);
  return Array.from({ length: first + 1 }, (_, n) => {
    const ago = first - n;
    return { day: today - WEEK * (ago + 1) + 1, answers: counts.get(ago) ?? 0 };
  });
}
