/** Which of the table's four pictures a question is shown in. */

import { MIRRORS, type Mirror } from '../table/index.ts';
import { hashOf } from './dice.ts';

/**
 * A different picture each time a card comes round, the same one whenever that time is shown again.
 * @param times how often the card has been answered so far
 */
export function pictureFor(cardId: string, times: number): Mirror {
  const index = (hashOf(cardId) + times) % MIRRORS.length;
  return MIRRORS[index] as Mirror;
}
