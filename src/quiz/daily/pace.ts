/** How long questions take a player, and so how many fit into some minutes. */

import { KINDS } from '../../cards/index.ts';
import type { LogState } from '../../scheduler/index.ts';

/** Reading a result and pressing Next takes about this long, besides the answer itself, ms. */
const AROUND_AN_ANSWER = 6_000;
/** An answer, until the player's own pace is known, ms. */
const FIRST_ANSWERS = 10_000;

/** Milliseconds for a question with all around it, from the player's own median over all kinds. */
export function timePerQuestion(log: LogState): number {
  const times = KINDS.flatMap((kind) => log.times.get(kind) ?? []).sort((a, b) => a - b);
  return (times[Math.floor(times.length / 2)] ?? FIRST_ANSWERS) + AROUND_AN_ANSWER;
}

/** How many questions fit into some minutes: at least one. */
export function questionsIn(minutes: number, log: LogState): number {
  return Math.max(1, Math.round((minutes * 60_000) / timePerQuestion(log)));
}

/** Whole minutes that some questions take: at least one. */
export function minutesFor(questions: number, log: LogState): number {
  return Math.max(1, Math.round((questions * timePerQuestion(log)) / 60_000));
}

/** The fewest whole minutes into which some questions fit. */
export function fewestMinutesFor(questions: number, log: LogState): number {
  // `questionsIn` rounds half a question up, so the first guess may be one minute too many, never too few.
  const most = Math.max(1, Math.ceil((questions * timePerQuestion(log)) / 60_000));
  return most > 1 && questionsIn(most - 1, log) >= questions ? most - 1 : most;
}
