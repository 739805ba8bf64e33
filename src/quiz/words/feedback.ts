/** What the answer screen shows. It comes from the same model values as the grade. */

import type { Outcome, Question } from '../../cards/index.ts';
import { formatDecimal, type Line } from '../../charts/index.ts';
import { SPEEDS, type Speed } from '../../table/index.ts';
import { type Drawing, type DrawingContext, drawingFor } from './drawing.ts';
import type { Given } from './given.ts';
import { measuredIn } from './measured.ts';
import { movementWords } from './quantities.ts';
import { verdictWords } from './verdict.ts';
import { type Working, workingOf } from './working.ts';

export interface SpeedNumber {
  readonly speed: Speed;
  readonly printed: string;
  /** Signed difference from the number at medium speed; empty for medium itself. */
  readonly movement: string;
}

/** The words that show at once, before any line is played. */
export interface Headline {
  readonly heading: string;
  readonly outcome: Outcome | 'shown';
  /** Says what is right, and how far the answer was from it. */
  readonly verdict: string;
}

export interface Feedback extends Headline, Drawing {
  /** The remark that the drawn number differs from the model's; null if it does not. */
  readonly measured: string | null;
  /** The line's numbers at each speed; empty for a skill. */
  readonly speeds: readonly SpeedNumber[];
  /** The proportional rule, step by step; null for questions to which it does not apply. */
  readonly working: Working | null;
}

export interface FeedbackContext extends DrawingContext {
  /** Whether there is no answer because the clock ran out. */
  readonly ranOut?: boolean;
}

const HEADINGS: Readonly<Record<Outcome, string>> = {
  off: 'Off',
  rattled: 'Rattled',
  pocketed: 'Pocketed',
  'dead center': 'Dead center',
};

/**
 * Returns everything that the answer screen shows.
 * @param given null for "show me", and also if the clock ran out
 */
export function feedbackFor(
  context: FeedbackContext,
  question: Question,
  given: Given | null,
): Feedback {
  const drawing = drawingFor(context, question, given);
  const speeds = drawing.legend === 'speeds' ? SPEEDS : [drawing.speed];
  return {
    ...headlineFor(context, question, given),
    measured: measuredIn(context.chart, question, speeds),
    speeds: 'line' in question ? speedNumbers(question.line) : [],
    working: workingOf(question),
    ...drawing,
  };
}

/**
 * Returns the words that show at once.
 * @param given null for "show me", and also if the clock ran out
 */
export function headlineFor(
  { ranOut = false }: Pick<FeedbackContext, 'ranOut'>,
  question: Question,
  given: Given | null,
): Headline {
  const verdict = verdictWords(question, given);
  if (given) {
    const { outcome } = given.grade;
    return { heading: HEADINGS[outcome], outcome, verdict };
  }
  if (ranOut) return { heading: 'Ran out', outcome: 'off', verdict };
  return { heading: shownHeading(question), outcome: 'shown', verdict };
}

function shownHeading({ kind }: Question): string {
  const headings = { window: 'The window', arrival: 'The arrival', trust: 'How far to trust it' };
  return kind in headings ? headings[kind as keyof typeof headings] : 'The number';
}

export function speedNumbers(line: Line): readonly SpeedNumber[] {
  const medium = line.numbers.medium.printed;
  return SPEEDS.map((speed) => {
    const { printed } = line.numbers[speed];
    const movement = speed === 'medium' ? '' : movementWords(printed, medium);
    return { speed, printed: formatDecimal(printed), movement };
  });
}
