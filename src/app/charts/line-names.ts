/** Names of lines and skills, from their ids in the log. */

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
  /** Whether it is of another chart or another naming: none that is asked now. */
  readonly elsewhere: boolean;
}

/**
 * First the lines of the cards, by the cards' names and in their order; then the others: lines of
 * another chart, of the other naming, or of a start that the chart no longer has. Those are named by
 * the readable parts of their ids, so that the player can take them in again, too.
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

/** Ids are chart/pattern/start/target or chart/pattern/zone/kind (src/cards/card.ts). */
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
