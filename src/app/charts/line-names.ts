/** Names lines and skills by their ids in the log. */

import { type Card, KINDS, ZONES, zoneBounds } from '../../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  isPatternId,
  parseDecimal,
  patternOf,
} from '../../charts/index.ts';
import { cardName, KIND_NAMES } from '../../quiz/index.ts';

export interface NamedLine {
  readonly id: string;
  readonly name: string;
  /**
   * Whether the line belongs to a different chart or naming, or to a start that the chart no longer
   * has.
   */
  readonly elsewhere: boolean;
}

/**
 * Names lines by their ids. Lines that have a card come first, under the card's name and in the
 * order of the cards. Then come the others: lines of a different chart, of the other naming, or
 * from a start that the chart no longer has. Their names are made from the readable parts of their
 * ids, so that the player can take these lines in again, too.
 */
export function namedLines(ids: ReadonlySet<string>, cards: readonly Card[]): readonly NamedLine[] {
  const names = new Map<string, string>();
  for (const card of cards) {
    if (ids.has(card.lineId) && !names.has(card.lineId)) names.set(card.lineId, cardName(card));
  }
  const own = [...names].map(([id, name]) => ({ id, name, elsewhere: false }));
  const others = [...ids].filter((id) => !names.has(id)).sort();
  return [...own, ...others.map((id) => ({ id, name: nameFrom(id), elsewhere: true }))];
}

/**
 * Reads a name from an id: chart/pattern/start/target or chart/pattern/zone/kind
 * (src/cards/card.ts).
 */
function nameFrom(id: string): string {
  const parts = id.split('/');
  const at = parts.findIndex(isPatternId);
  const [pattern = '', place = '', last = ''] = at < 0 ? [] : parts.slice(at);
  if (!isPatternId(pattern)) return id;
  const { name } = patternOf(pattern);
  const zone = ZONES.find((one) => one === place);
  const kind = KINDS.find((one) => one === last);
  if (zone && kind) {
    const [from, to] = zoneBounds(patternOf(pattern), zone).map((end) => formatDecimal(end));
    return `${name}, ${KIND_NAMES[kind].toLowerCase()}, starts ${from}–${to}`;
  }
  const start = startIn(place);
  return start === null ? id : `${name} from ${formatDecimal(start)}`;
}

function startIn(text: string): Decimal | null {
  const parsed = parseDecimal(text);
  return parsed.ok ? parsed.value : null;
}
