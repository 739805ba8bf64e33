/**
 * Estimates how long a player takes for a question, and so how many questions fit into some
 * minutes.
 */

import { KINDS } from '../../cards/index.ts';
import type { LogState } from '../../scheduler/index.ts';

/** The time for reading a result and pressing Next, in ms. It comes on top of the answer time. */
const AROUND_AN_ANSWER = 6_000;
/** The assumed time for an answer, in ms, until the player's own pace is known. */
const FIRST_ANSWERS = 10_000;

/**
 * Returns the milliseconds that a question takes in all: the player's median answer time over all
 * kinds, plus the time around the answer.
 */
export function timePerQuestion(log: LogState): number {
  const times = KINDS.flatMap((kind) => log.times.get(kind) ?? []).sort((a, b) => a - b);
  return (times[Math.floor(times.length / 2)] ?? FIRST_ANSWERS) + AROUND_AN_ANSWER;
}

/** Returns how many questions fit into the given minutes; at least one. */
export function questionsIn(minutes: number, log: LogState): number {
  return Math.max(1, Math.round((minutes * 60_000) / timePerQuestion(log)));
}

/** Returns how many whole minutes the given questions take; at least one. */
export function minutesFor(questions: number, log: LogState): number {
  return Math.max(1, Math.round((questions * timePerQuestion(log)) / 60_000));
}

/** Returns the fewest whole minutes into which the given questions fit. */
export function fewestMinutesFor(questions: number, log: LogState): number {
  // `questionsIn` rounds half a question up. So the first guess may be one minute too many, but
  // never too few.
  const most = Math.max(1, Math.ceil((questions * timePerQuestion(log)) / 60_000));
  return most > 1 && questionsIn(most - 1, log) >= questions ? most - 1 : most;
}
