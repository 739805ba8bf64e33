/** Names of cards, for lists. */

import { type Card, isLineCard, type Kind, zoneBounds } from '../../cards/index.ts';
import { formatDecimal, patternOf } from '../../charts/index.ts';
import { movementWords } from './quantities.ts';

/** The name of each kind of question, as used in lists and settings. */
export const KIND_NAMES: Readonly<Record<Kind, string>> = {
  number: 'Number',
  window: 'Window',
  arrival: 'Arrival',
  'in between': 'In between',
  'rail ball': 'Rail ball',
  'off the rail': 'Off the rail',
  trust: 'Trust',
};

/** The note that stands below a kind's name where the player chooses kinds. */
export const KIND_NOTES: Readonly<Record<Kind, string>> = {
  number: 'From a start, the number at medium speed.',
  window: 'How far soft and firm move it.',
  arrival: 'Where the ball arrives, for a given aim.',
  'in between': 'A start between two anchors.',
  'rail ball': 'A ball on the rail, between two targets you know.',
  'off the rail': 'The same with the ball off the rail.',
  trust: 'Does a line bank, is it thin, or a kick only.',
};

/** Returns, for example, "Cross-corner from 3.0" or "Cross-corner, rail ball, starts 1.0–2.5". */
export function cardName(card: Card): string {
  const pattern = patternOf(card.pattern);
  if (isLineCard(card)) return `${pattern.name} from ${formatDecimal(card.start)}`;
  const [from, to] = zoneBounds(pattern, card.zone);
  const kind = KIND_NAMES[card.kind].toLowerCase();
  return `${pattern.name}, ${kind}, starts ${formatDecimal(from)}–${formatDecimal(to)}`;
}

/** Returns the answer to a card: its number or its window; empty for a skill. */
export function cardTruth(card: Card): string {
  if (!isLineCard(card)) return '';
  const { soft, medium, firm } = card.line.numbers;
  switch (card.kind) {
    case 'number':
      return formatDecimal(medium.printed);
    case 'window':
      return `soft ${movementWords(soft.printed, medium.printed)}, firm ${movementWords(firm.printed, medium.printed)}`;
    case 'trust':
      return 'how far to trust it';
  }
}
