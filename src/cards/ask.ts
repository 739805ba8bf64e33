/** From a card to the question it asks. */

import {
  type Decimal,
  type Line,
  minus,
  patternOf,
  toDecimal,
  toNumber,
  VERDICTS,
  type Verdict,
  verdictOf,
} from '../charts/index.ts';
import { aimNamed, makeWindowOf, nameAim, SPEEDS } from '../table/index.ts';
import { type Card, isLineCard, type LineCard } from './card.ts';
import { hashOf } from './dice.ts';
import { type Asker, instanceOf } from './instance.ts';
import type { Question } from './question.ts';

/**
 * The question of a card.
 * @param seed which instance of a skill; of no matter for a line's card. `seedFor` gives the one
 *   that a card has the next time it is asked.
 * @returns null if a skill has no instance on this chart
 */
export function questionOf(asker: Asker, card: Card, seed: number): Question | null {
  return isLineCard(card) ? lineQuestion(asker, card) : instanceOf(asker, card, seed);
}

/**
 * The instance for a card's next answer: another one each time, the same after a reload.
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
      const verdict = verdictFor(asker, line);
      const truth = [toDecimal(VERDICTS.indexOf(verdict.kind))] as const;
      return { ...base, kind: 'trust', tolerance: 0 as Decimal, verdict, truth };
    }
  }
}

/** Played into the pocket with the chart's numbers at its three speeds. */
function verdictFor({ chart }: Asker, line: Line): Verdict {
  const { setting, naming } = chart;
  const pattern = patternOf(line.pattern);
  const start = toNumber(line.start);
  const windows = SPEEDS.map((speed) => {
    const launch = { ...pattern.stroke, speed: setting.condition.speeds[speed] };
    const through = aimNamed(setting.table, pattern, start, line.numbers[speed].exact, naming);
    const window = makeWindowOf(setting, pattern, start, launch, through);
    const named = (aim: number) => nameAim(setting.table, pattern, start, aim, naming);
    return window && { from: named(window.from), to: named(window.to) };
  });
  const [soft = null, medium = null, firm = null] = windows;
  return verdictOf({ soft, medium, firm });
}
