/** Questions and numbers in the words that players use (common practice, no source). */

import type { NumberQuestion, WindowQuestion } from '../../cards/index.ts';
import { type Decimal, formatDecimal, patternOf, size } from '../../charts/index.ts';
import { capital } from '../words/quantities.ts';

/** A question that can be asked without a picture. */
export type SpokenQuestion = NumberQuestion | WindowQuestion;

/** The words of a question, both to be spoken and to be read. */
export interface EarWords {
  /** The question as the voice speaks it. */
  readonly question: string;
  /** The answer as the voice speaks it. */
  readonly answer: string;
  /** The name of the pattern. */
  readonly pattern: string;
  /** The start, such as "from 3.0". It is large on the screen. */
  readonly from: string;
  /**
   * The speed, such as "medium". For a window it is the question itself, because a speed alone does
   * not say what is asked.
   */
  readonly asked: string;
  /** The number in digits; for a window, the two movements. */
  readonly written: readonly string[];
}

const WINDOW_ASKED = 'How far do soft and firm move it?';

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/**
 * Returns, for example, "one point four", "two", "point five" or "minus point one". If `signed`, a
 * positive number gets its sign too, as in "plus point two".
 */
export function spokenNumber(value: Decimal, signed = false): string {
  const [whole = '', part = ''] = formatDecimal(size(value), 0).split('.');
  const sign = value < 0 ? 'minus ' : signed && value > 0 ? 'plus ' : '';
  if (part === '') return `${sign}${spokenDigits(whole)}`;
  const before = whole === '0' ? '' : `${spokenDigits(whole)} `;
  return `${sign}${before}point ${spokenDigits(part)}`;
}

/**
 * Returns the words of a question. They use the names of the chart's own picture, because no
 * picture is shown.
 */
export function earWords(question: SpokenQuestion): EarWords {
  const { name } = patternOf(question.pattern);
  const opening = `${name}. From ${spokenNumber(question.start)}.`;
  const from = `from ${formatDecimal(question.start)}`;
  if (question.kind === 'number') {
    const [number] = question.truth;
    return {
      question: `${opening} ${capital(question.speed)}.`,
      answer: `${capital(spokenNumber(number))}.`,
      pattern: name,
      from,
      asked: question.speed,
      written: [formatDecimal(number)],
    };
  }
  const [soft, firm] = question.truth;
  return {
    question: `${opening} ${WINDOW_ASKED}`,
    answer: `Soft, ${spokenMovement(soft)}. Firm, ${spokenMovement(firm)}.`,
    pattern: name,
    from,
    asked: WINDOW_ASKED,
    written: [`soft ${writtenMovement(soft)}`, `firm ${writtenMovement(firm)}`],
  };
}

function spokenDigits(digits: string): string {
  return [...digits].map((digit) => DIGITS[Number(digit)]).join(' ');
}

function spokenMovement(by: Decimal): string {
  return by === 0 ? 'the same' : spokenNumber(by, true);
}

function writtenMovement(by: Decimal): string {
  return by === 0 ? 'same' : formatDecimal(by, 1, true);
}
