/** Chooses the one of the table's four mirror images in which a question is shown. */

import { MIRRORS, type Mirror } from '../table/index.ts';
import { hashOf } from './dice.ts';

/**
 * Returns a different image at each turn of a card. The image stays the same whenever that turn is
 * shown again.
 * @param times how often the card has been answered so far
 */
export function pictureFor(cardId: string, times: number): Mirror {
  const index = (hashOf(cardId) + times) % MIRRORS.length;
  return MIRRORS[index] as Mirror;
}
