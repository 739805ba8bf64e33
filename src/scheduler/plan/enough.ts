/** How many answers a day are enough. */

import { createDice } from '../../cards/index.ts';
import type { Worths } from './course.ts';
import { outlookOf } from './forecast.ts';
import { findPrices, type Market, runsFor } from './market.ts';
import type { Planning } from './stock.ts';
import { roomOf, type Terms } from './today.ts';

/** The number of answers is found to within about this part. */
const FINE = 0.06;

/** If the number differs from the terms by more than this factor, pulls are computed again. */
const FAR = 1.5;

const ROUNDS = 2;

/**
 * The fewest answers a day that hold the wanted number of lines; null if no number does. Pulls come
 * from the prices of the terms first, then from those of the number found.
 * @param expected lines held with the answers of the terms
 */
export function answersFor(
  planning: Planning,
  terms: Terms,
  market: Market,
  expected: number,
  wanted: number,
): number | null {
  const by = (worths: Worths) => (answersADay: number) =>
    heldWith(planning, { ...terms, answersADay }, worths) >= wanted;
  const enough = by(market.worths);
  const bounds = boundsOf(planning, terms, expected >= wanted, enough);
  if (!bounds) return null;
  const found = fewest(bounds, enough);
  const given = terms.answersADay;
  if (found === 0 || (found < FAR * given && given < FAR * found)) return found;
  const room = roomOf(planning, { ...terms, answersADay: found });
  const { worths } = findPrices(planning, room, ROUNDS, createDice(found).next);
  return fewest([Math.floor(found / 2), found], by(worths));
}

function heldWith(planning: Planning, terms: Terms, worths: Worths): number {
  const runs = runsFor(planning, 100_000, 1, 16);
  const dice = createDice(terms.answersADay).next;
  return outlookOf(planning, worths, roomOf(planning, terms), runs, dice).expected;
}

function fewest(
  [from, to]: readonly [number, number],
  enough: (answersADay: number) => boolean,
): number {
  let [low, high] = [from, to];
  while (high - low > Math.max(1, FINE * high)) {
    const tried = Math.round((low + high) / 2);
    if (enough(tried)) high = tried;
    else low = tried;
  }
  return high;
}

/** A number that is not enough, and one that is; null if there is none. */
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
