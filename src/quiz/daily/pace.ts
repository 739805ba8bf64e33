/** How long questions take a player: for what fits into some minutes. */

import { KINDS } from '../../cards/index.ts';
import type { LogState } from '../../scheduler/index.ts';

/** Reading a result and going on takes about this long, beside the answer itself, ms. */
const AROUND_AN_ANSWER = 6_000;
/** Until the player's own pace is known, ms. */
const FIRST_ANSWERS = 10_000;

/** A question with what is around it, milliseconds: the player's own median of all kinds. */
export function timePerQuestion(log: LogState): number {
  const times = KINDS.flatMap((kind) => log.times.get(kind) ?? []).sort((a, b) => a - b);
  return (times[Math.floor(times.length / 2)] ?? FIRST_ANSWERS) + AROUND_AN_ANSWER;
}

/** How many questions some minutes have room for: one at least. */
export function questionsIn(minutes: number, log: LogState): number {
  return Math.max(1, Math.round((minutes * 60_000) / timePerQuestion(log)));
}

/** Whole minutes that some questions take: one at least. */
export function minutesFor(questions: number, log: LogState): number {
  return Math.max(1, Math.round((questions * timePerQuestion(log)) / 60_000));
}

/** The fewest whole minutes that have room for some questions. */
export function minutesToHold(questions: number, log: LogState): number {
  // Half a question is rounded up to a whole one: the first guess may be one too many, never too few.
  const most = Math.max(1, Math.ceil((questions * timePerQuestion(log)) / 60_000));
  return most > 1 && questionsIn(most - 1, log) >= questions ? most - 1 : most;
}
