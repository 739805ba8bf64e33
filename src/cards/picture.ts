/** Which of the table's four pictures a question is shown in. */

import { MIRRORS, type Mirror } from '../table/index.ts';

/**
 * A different picture each time a card comes round, the same one whenever that time is shown again.
 * @param times how often the card has been answered so far
 */
export function pictureFor(cardId: string, times: number): Mirror {
  const index = (hash(cardId) + times) % MIRRORS.length;
  return MIRRORS[index] as Mirror;
}

/** FNV-1a, 32 bit (Fowler, Noll & Vo). */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (let n = 0; n < text.length; n++) {
    value = Math.imul(value ^ text.charCodeAt(n), 0x01000193);
  }
  return value >>> 0;
}
