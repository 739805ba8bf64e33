/** How many answers a day would be enough: found with fewer rounds and courses than the plan. */

import { createDice } from '../cards/index.ts';
import { outlookOf } from './plan-forecast.ts';
import { findPrices, runsFor } from './plan-market.ts';
import type { Planning } from './plan-stock.ts';
import { roomOf, type Terms } from './plan-today.ts';
import type { Prices } from './plan-worth.ts';

const ROUNDS = 3;

/** Numbers of answers are told apart to about this part. */
const FINE = 0.08;

/**
 * The fewest answers a day by which so many lines are held; null if no number will do.
 * @param expected lines held with the answers of the terms
 */
export function answersFor(
  planning: Planning,
  terms: Terms,
  prices: Prices,
  expected: number,
  wanted: number,
): number | null {
  const enough = (answersADay: number): boolean =>
    heldWith(planning, { ...terms, answersADay }, prices) >= wanted;
  const given = Math.max(0, Math.floor(terms.answersADay) || 0);
  const most = 2 * planning.stock.items.length;
  let [low, high] = [0, Math.min(given, most)];
  if (expected < wanted) {
    if (planning.horizon.steps === 0 || !enough(most)) return null;
    [low, high] = [Math.min(given, most), most];
    for (let tried = Math.max(2, 2 * low); tried < most; tried *= 2) {
      if (enough(tried)) {
        high = tried;
        break;
      }
      low = tried;
    }
  } else if (enough(0)) return 0;
  while (high - low > Math.max(1, FINE * high)) {
    const tried = Math.round((low + high) / 2);
    if (enough(tried)) high = tried;
    else low = tried;
  }
  return high;
}

function heldWith(planning: Planning, terms: Terms, prices: Prices): number {
  const dice = createDice(terms.answersADay).next;
  const room = roomOf(planning, terms);
  const { worths } = findPrices(planning, room, ROUNDS, dice, prices);
  return outlookOf(planning, worths, room, runsFor(planning, 200_000, 2, 40), dice).expected;
}
