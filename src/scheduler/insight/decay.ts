/** How memory decays without further answers, in closed form. */

import type { Card } from '../../cards/index.ts';
import type { LogState } from '../log/state.ts';
import { heldOn } from './held.ts';

export interface HeldDay {
  /** Study day. */
  readonly day: number;
  /** Expected number of lines known, ΣR. */
  readonly held: number;
}

/**
 * Returns the lines known today and on the given number of days after it, if nothing is answered.
 * @param every the step between the days that are computed
 */
export function forecastDecay(
  cards: readonly Card[],
  log: LogState,
  today: number,
  days: number,
  every = 1,
): readonly HeldDay[] {
  return Array.from({ length: Math.floor(days / every) + 1 }, (_, n) => {
    const day = today + n * every;
    return { day, held: heldOn(cards, log, day).expected };
  });
}
