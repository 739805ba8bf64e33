/** Which of the table's four mirror images a question is shown in. */

import { MIRRORS, type Mirror } from '../table/index.ts';
import { hashOf } from './dice.ts';

/**
 * Another image at each turn of a card, and the same one whenever that turn is shown again.
 * @param times how often the card was answered so far
 */
export function pictureFor(cardId: string, times: number): Mirror {
  const index = (hashOf(cardId) + times) % MIRRORS.length;
  return MIRRORS[index] as Mirror;
}
