/** Makes the question that a card asks. */

import { type Decimal, minus, patternOf, toDecimal, VERDICTS } from '../charts/index.ts';
import type { Asker } from './asker.ts';
import { type Card, isLineCard, type LineCard } from './card.ts';
import { hashOf } from './dice.ts';
import { instanceOf } from './instance.ts';
import type { Question } from './question.ts';
import { verdictAt } from './verdict-at.ts';

/**
 * Returns the question that a card asks.
 * @param seed picks the instance of a skill; a line's card ignores it. `seedFor` gives the seed of
 *   the card's next turn.
 * @returns null if a skill has no instance on this chart
 */
export function questionOf(asker: Asker, card: Card, seed: number): Question | null {
  return isLineCard(card) ? lineQuestion(asker, card) : instanceOf(asker, card, seed);
}

/**
 * Returns the seed of a card's next turn. Each turn has a different seed, and a reload does not
 * change it.
 * @param times how often the card has been answered so far
 */
export function seedFor(cardId: string, times: number): number {
  return hashOf(`${cardId} ${times}`);
}

function lineQuestion(asker: Asker, card: LineCard): Question {
  const { pattern, start, line } = card;
  const base = { pattern, start, line, speed: 'medium', tolerance: asker.tolerance } as const;
  const { soft, medium, firm } = line.numbers;
  switch (card.kind) {
    case 'number':
      return { ...base, kind: 'number', truth: [medium.printed] };
    case 'window': {
      const from = (printed: Decimal) => minus(printed, medium.printed);
      return { ...base, kind: 'window', truth: [from(soft.printed), from(firm.printed)] };
    }
    case 'trust': {
      const numbers = { soft: soft.exact, medium: medium.exact, firm: firm.exact };
      const verdict = verdictAt(asker.chart, patternOf(pattern), start, numbers);
      const truth = [toDecimal(VERDICTS.indexOf(verdict.kind))] as const;
      return { ...base, kind: 'trust', tolerance: 0 as Decimal, verdict, truth };
    }
  }
}
