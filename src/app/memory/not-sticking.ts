/** What the Memory page says of cards that do not stick. */

import { type Card, isLineCard, KINDS, type Kind } from '../../cards/index.ts';
import { type Chart, cueFor, type Decimal, formatDecimal } from '../../charts/index.ts';
import {
  anchorWords,
  cardName,
  cuesOf,
  KIND_NAMES,
  stepWords,
  zoneRange,
} from '../../quiz/index.ts';
import type { Choices } from '../parts/drill-plan.ts';

/** How many are listed. */
const LISTED = 5;

/** Returns the first of the cards that are still asked, one for each line. */
export function listed(cards: readonly Card[], kinds: readonly Kind[]): readonly Card[] {
  const asked = cards.filter(({ kind }) => kinds.includes(kind));
  const lines = new Set<string>();
  return asked.filter(({ lineId }) => !lines.has(lineId) && lines.add(lineId)).slice(0, LISTED);
}

/** Says what the listed cards have in common, and what helps. Only numbers have neighbors. */
export function introWords(cards: readonly Pick<Card, 'kind'>[]): string {
  const which = cards.length === 1 ? 'this one' : 'these';
  const isNumbers = cards.some(({ kind }) => kind === 'number');
  const helps = isNumbers ? 'Count from a neighbor, or drill.' : 'A drill may help.';
  return `You forget ${which} despite many answers. ${helps}`;
}

/** Returns, for example, "Cross-side from 3.0" or "Cross-side from 3.0, window". */
export function nameOf(card: Card): string {
  const isNamed = card.kind === 'number' || !isLineCard(card);
  return isNamed ? cardName(card) : `${cardName(card)}, ${KIND_NAMES[card.kind].toLowerCase()}`;
}

/** Tells a number's neighbors and the step between anchors. Other cards have no such help. */
export function helpFor(chart: Chart, card: Card, tolerance: Decimal): readonly string[] {
  if (!isLineCard(card) || card.kind !== 'number') return [];
  const neighbors = anchorWords(chart, card.line, tolerance);
  const cue = cueFor(cuesOf(chart, card.pattern, tolerance), card.start)?.cue;
  const step =
    cue && `From ${formatDecimal(cue.from)} to ${formatDecimal(cue.to)}: ${stepWords(cue)}`;
  return [neighbors, step].flatMap((words) => words || []);
}

/** A drill of the card's zone. A number is also asked between its neighbors. */
export function drillOf({ pattern, zone, kind }: Card): Choices {
  const kinds = KINDS.filter((one) => one === kind || (kind === 'number' && one === 'in between'));
  return { patterns: [pattern], zones: [zone], kinds, count: 10, speeds: 'medium' };
}

/** Returns, for example, "Drill starts 1.0–2.5". */
export function drillLabel({ zone, pattern }: Card): string {
  return `Drill starts ${zoneRange(zone, pattern)}`;
}
