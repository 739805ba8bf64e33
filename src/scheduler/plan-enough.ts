/** How many answers a day would be enough. */

import { createDice } from '../cards/index.ts';
import type { Worths } from './plan-course.ts';
import { outlookOf } from './plan-forecast.ts';
import { runsFor } from './plan-market.ts';
import type { Planning } from './plan-stock.ts';
import { roomOf, type Terms } from './plan-today.ts';

/** Numbers of answers are told apart to about this part. */
const FINE = 0.06;

/**
 * The fewest answers a day by which so many lines are held; null if no number will do. What pulls
 * most is judged by the prices of the terms, which costs a few answers and saves most of the work.
 * @param expected lines held with the answers of the terms
 */
export function answersFor(
  planning: Planning,
  terms: Terms,
  worths: Worths,
  expected: number,
  wanted: number,
): number | null {
  const runs = runsFor(planning, 100_000, 1, 16);
  const enough = (answersADay: number): boolean => {
    const room = roomOf(planning, { ...terms, answersADay });
    return outlookOf(planning, worths, room, runs, createDice(answersADay).next).expected >= wanted;
  };
  const bounds = boundsOf(planning, terms, expected >= wanted, enough);
  if (!bounds) return null;
  let [low, high] = bounds;
  while (high - low > Math.max(1, FINE * high)) {
    const tried = Math.round((low + high) / 2);
    if (enough(tried)) high = tried;
    else low = tried;
  }
  return high;
}

/** A number that is not enough, and one that is. */
function boundsOf(
  { stock, horizon }: Planning,
  terms: Terms,
  reached: boolean,
  enough: (answersADay: number) => boolean,
): readonly [number, number] | null {
  const most = 2 * stock.items.length;
  const given = Math.min(most, Math.max(0, Math.floor(terms.answersADay) || 0));
  if (reached) return enough(0) ? [0, 0] : [0, given];
  if (horizon.steps === 0 || !enough(most)) return null;
  let low = given;
  for (let tried = Math.max(2, 2 * given); tried < most; tried *= 2) {
    if (enough(tried)) return [low, tried];
    low = tried;
  }
  return [low, most];
}
