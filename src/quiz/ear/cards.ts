/**
 * Decides which card comes next by ear: what the chooser would ask, of the lines that the player has
 * met and the kinds that need no picture.
 */

import { type Card, isLineCard, type Kind, type LineCard } from '../../cards/index.ts';
import { type LogState, nextStep, type Wish } from '../../scheduler/index.ts';

/** The kinds of questions that need no picture. */
const EAR_KINDS: readonly Kind[] = ['number', 'window'];

export type EarStep =
  | { readonly type: 'ask'; readonly card: LineCard }
  | { readonly type: 'none met' }
  /** Every line that the player has met was asked today, or is set aside. */
  | { readonly type: 'all asked' };

export function nextByEar(
  cards: readonly Card[],
  log: LogState,
  today: number,
  wish: Wish,
): EarStep {
  const known = knownLines(cards, log);
  const isKnown = (card: Card): card is LineCard =>
    isLineCard(card) &&
    EAR_KINDS.includes(card.kind) &&
    wish.kinds.includes(card.kind) &&
    known.has(card.lineId) &&
    // If a number was revised, the player must see the new one before calling it.
    log.moved.get(card.id)?.shown !== false;
  if (!cards.some(isKnown)) return { type: 'none met' };
  const { step } = nextStep(cards, log, today, { ...wish, fits: isKnown });
  return step && isKnown(step.card) ? { type: 'ask', card: step.card } : { type: 'all asked' };
}

/** Returns the ids of the lines that the player met, or that have a card with a memory. */
function knownLines(cards: readonly Card[], log: LogState): ReadonlySet<string> {
  const remembered = cards.filter(({ id }) => log.memories.has(id));
  return new Set([...log.met.keys(), ...remembered.map(({ lineId }) => lineId)]);
}
