/** Questions and numbers as a player says them: common practice, no source. */

import type { NumberQuestion, WindowQuestion } from '../../cards/index.ts';
import { type Decimal, formatDecimal, patternOf, size } from '../../charts/index.ts';
import { capital } from '../words/quantities.ts';

/** A question that needs no picture. */
export type SpokenQuestion = NumberQuestion | WindowQuestion;

/** A question for the ear, and the same for the eye. */
export interface EarWords {
  /** Spoken. */
  readonly question: string;
  /** Spoken. */
  readonly answer: string;
  /** The pattern's name. */
  readonly pattern: string;
  /** "from 3.0", large on the screen. */
  readonly from: string;
  /** "medium"; for a window the question itself, since a speed alone does not say what is asked. */
  readonly asked: string;
  /** The number as written; for a window the two movements. */
  readonly written: readonly string[];
}

const WINDOW_ASKED = 'How far do soft and firm move it?';

const DIGITS = ['zero', 'one', 'two', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

/** "one point four", "two", "point five", "minus point one"; if signed, also "plus point two". */
export function spokenNumber(value: Decimal, signed = false): string {
  const [whole = '', part = ''] = formatDecimal(size(value), 0).split('.');
  const sign = value < 0 ? 'minus ' : signed && value > 0 ? 'plus ' : '';
  if (part === '') return `${sign}${spokenDigits(whole)}`;
  const before = whole === '0' ? '' : `${spokenDigits(whole)} `;
  return `${sign}${before}point ${spokenDigits(part)}`;
}

/** A question in the names of the chart's own picture, since none is shown. */
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
