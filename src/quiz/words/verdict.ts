/**
 * Says, in a sentence or two, what the right answer is and how far the player's answer was from it.
 */

import type { Question } from '../../cards/index.ts';
import {
  type Decimal,
  formatDecimal,
  minus,
  toDecimal,
  toNumber,
  VERDICTS,
} from '../../charts/index.ts';
import type { Given } from './given.ts';
import { errorWords, inHundredths, movementWords } from './quantities.ts';

/**
 * Returns the verdict on an answer.
 * @param given null for "show me"
 */
export function verdictWords(question: Question, given: Given | null): string {
  const words = wordsFor(question, given);
  return given?.grade.slow ? `${words} Right, but slow.` : words;
}

function wordsFor(question: Question, given: Given | null): string {
  switch (question.kind) {
    case 'number':
      return numberVerdict(question, given);
    case 'window':
      return windowVerdict(question, given);
    case 'trust':
      return trustVerdict(question, given);
    case 'arrival':
      return solvedVerdict('It arrives at', question, given, 'You said');
    default:
      return solvedVerdict('The number is', question, given, 'You called');
  }
}

type Of<K extends Question['kind']> = Extract<Question, { readonly kind: K }>;

function numberVerdict({ line, speed }: Of<'number'>, given: Given | null): string {
  const { exact, printed } = line.numbers[speed];
  // Show the number before rounding too. Otherwise the words about the number may seem to
  // contradict those about the ball.
  const fine = fineOf(exact);
  const rounded = fine === printed ? '' : ` (${formatDecimal(fine, 2)} before rounding)`;
  const number = `${formatDecimal(printed)} is the number${rounded}`;
  const [called] = given?.values ?? [];
  const [error] = given?.grade.errors ?? [];
  if (called === undefined || error === undefined) return `${number}.`;
  if (error === 0) return `${number}. You called it.`;
  if (called === fine) return `${number}. You called what it is before rounding.`;
  return `${number}. You called ${formatDecimal(called)}: ${errorWords(error)}.`;
}

/**
 * Rounds to two decimals. If these end in 5, rounds to three, so that they do not look like a tie
 * that was rounded the wrong way.
 */
function fineOf(exact: number): Decimal {
  const hundredths = toDecimal(Math.round(exact * 100) / 100);
  const tie = hundredths % 1000 === 500;
  return tie ? toDecimal(Math.round(exact * 1000) / 1000) : hundredths;
}

function solvedVerdict(
  opening: string,
  { kind, tolerance, truth: [truth] }: Of<'arrival' | 'in between' | 'rail ball' | 'off the rail'>,
  given: Given | null,
  youCalled: string,
): string {
  const right = `${opening} ${formatDecimal(inHundredths(truth), 2)}.`;
  const [called] = given?.values ?? [];
  const [error] = given?.grade.errors ?? [];
  if (called === undefined || error === undefined) return right;
  // Computed from the number as shown, so that the difference agrees with the numbers that the
  // player reads.
  const off = minus(called, inHundredths(truth));
  if (off === 0 || error === 0) return `${right} ${youCalled} it.`;
  const within =
    kind === 'in between' ? '' : ` Within ${formatDecimal(inHundredths(tolerance))} counts.`;
  return `${right} ${youCalled} ${formatDecimal(called)}: ${errorWords(off)}.${within}`;
}

function windowVerdict({ line }: Of<'window'>, given: Given | null): string {
  const { soft, medium, firm } = line.numbers;
  const window = `Soft ${movementWords(soft.printed, medium.printed)}, firm ${movementWords(firm.printed, medium.printed)}`;
  if (!given) return `${window}.`;
  const names = ['soft', 'firm'] as const;
  const wrong = given.grade.errors.flatMap((error, n) => {
    const called = given.values[n];
    if (error === 0 || called === undefined) return [];
    return [`${names[n]} ${formatDecimal(called, 1, true)} (${errorWords(error)})`];
  });
  return wrong.length === 0
    ? `${window}. You called both.`
    : `${window}. You called ${wrong.join(' and ')}.`;
}

function trustVerdict({ verdict }: Of<'trust'>, given: Given | null): string {
  const says = { banks: 'This line banks.', thin: 'This line is thin.', 'kick only': 'Kick only.' };
  const right = says[verdict.kind];
  const [called] = given?.values ?? [];
  if (called === undefined) return right;
  const yours = VERDICTS[toNumber(called)] ?? '';
  return yours === verdict.kind ? `${right} You said so.` : `${right} You said: ${yours}.`;
}
