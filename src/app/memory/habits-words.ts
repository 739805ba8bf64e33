/** Puts a player's own numbers into words, for the Memory page. */

import { KINDS } from '../../cards/index.ts';
import { KIND_NAMES } from '../../quiz/index.ts';
import type { Habits } from '../../scheduler/index.ts';

/** With fewer answers on later days, a player cannot be told from the average. */
const LEAST_ANSWERS = 30;
const LEAST_FIRST = 10;
const LEAST_OF_KIND = 20;
/** A memory that lasts this much longer or less long than the average is about average. */
const ABOUT = 0.15;
/** A kind that is known less well than this is said to be weak. */
const WEAK = 0.85;
const MISFIT = 0.05;

/** Says how the player's memory differs from the average, most important first. */
export function habitSentences(habits: Habits, msPerQuestion: number): readonly string[] {
  if (habits.answers < LEAST_ANSWERS) {
    return ['After about 30 reviews, this page compares your memory with the average.'];
  }
  return [
    lastingWords(habits),
    weakWords(habits),
    firstWords(habits),
    daysWords(habits),
    `A question takes you about ${secondsWords(msPerQuestion)}.`,
    habits.misfit > MISFIT
      ? 'Your answers do not follow the usual curve, so forecasts are wide.'
      : null,
  ].filter((words) => words !== null);
}

function lastingWords({ factor }: Habits): string {
  return Math.abs(factor - 1) <= ABOUT
    ? 'Your memory lasts about as long as the average learner’s.'
    : `Your memory lasts about ${factor.toFixed(1)} times as long as the average learner’s.`;
}

/** Names the weakest kind; null if every kind is known well or was asked too seldom. */
function weakWords({ fresh }: Habits): string | null {
  const [weakest] = KINDS.filter(
    (kind) => fresh[kind].answers >= LEAST_OF_KIND && fresh[kind].part < WEAK,
  ).sort((a, b) => fresh[a].part - fresh[b].part);
  if (!weakest) return null;
  return `${KIND_NAMES[weakest]}: even when fresh, you miss ${partWords(1 - fresh[weakest].right)}.`;
}

function firstWords({ first }: Habits): string | null {
  const all = KINDS.map((kind) => first[kind]);
  const answers = all.reduce((sum, one) => sum + one.answers, 0);
  if (answers < LEAST_FIRST) return null;
  const right = all.reduce((sum, one) => sum + one.part * one.answers, 0);
  return `First answers: ${partWords(right / answers)} are right.`;
}

function daysWords({ missed }: Habits): string {
  const days = Math.round(7 * (1 - missed));
  if (days === 0) return 'You practice on less than one day a week.';
  if (days === 7) return 'You practice nearly every day.';
  return `You practice on ${days} ${days === 1 ? 'day' : 'days'} of 7.`;
}

/** "4 of 5" or "3 of 10", and in words where tenths are too coarse. */
function partWords(part: number): string {
  const tenths = Math.round(10 * part);
  if (tenths <= 0) return 'almost none';
  if (tenths >= 10) return 'nearly all';
  return tenths % 2 === 0 ? `${tenths / 2} of 5` : `${tenths} of 10`;
}

function secondsWords(ms: number): string {
  const seconds = Math.max(1, Math.round(ms / 1000));
  return seconds === 1 ? '1 second' : `${seconds} seconds`;
}
