/** What all sessions do with a question in the same way: make, draw, grade and record it. */

import {
  type Asker,
  gradeAnswer,
  paceOf,
  pictureFor,
  type Question,
  toleranceFor,
} from '../../cards/index.ts';
import { type Chart, toNumber } from '../../charts/index.ts';
import type { Answered, Instance } from '../../scheduler/index.ts';
import { type Settings, toleranceOf } from '../../store/index.ts';
import { MIRRORS, type Mirror } from '../../table/index.ts';
import type { Given } from '../words/given.ts';
import type { SessionPorts } from './ports.ts';

/** Returns the source of questions for the current settings. */
export function askerFor(chart: Chart, settings: Settings): Asker {
  const tolerance = toleranceFor(toleranceOf(settings), chart.document.printStep);
  return { chart, tolerance, speeds: ['medium'] };
}

/**
 * Returns the mirroring of a question's picture. For a beginner, the setting can keep it as
 * printed.
 */
export function mirrorFor(
  { pictures }: Pick<Settings, 'pictures'>,
  id: string,
  times: number,
): Mirror {
  return pictures === 'all' ? pictureFor(id, times) : (MIRRORS[0] as Mirror);
}

/**
 * Grades values by the question's tolerance and by the player's own pace for questions of its kind.
 */
export function gradeFor(
  { log }: Pick<SessionPorts, 'log'>,
  question: Question,
  values: Given['values'],
  ms: number,
): Given {
  const pace = paceOf(log.peek().times.get(question.kind) ?? []);
  return { values, grade: gradeAnswer(values, question.truth, question.tolerance, ms, pace) };
}

/**
 * Returns an answer in the form in which the log stores it. "Show me" has no numbers and counts as
 * off.
 */
export function givenParts(given: Given | null): Pick<Answered, 'answer' | 'errors' | 'outcome'> {
  if (!given) return { answer: null, errors: null, outcome: 'off' };
  const { errors, outcome } = given.grade;
  return { answer: given.values.map(toNumber), errors: errors.map(toNumber), outcome };
}

/**
 * Returns a question's speed and its place on the table, in diamonds, in the form in which the log
 * stores them.
 */
export function instanceFor(question: Question): Instance {
  const { speed } = question;
  const start = toNumber(question.start);
  switch (question.kind) {
    case 'arrival':
      return { start, speed, aim: toNumber(question.aim) };
    case 'rail ball':
      return { start, speed, at: toNumber(question.at) };
    case 'off the rail':
      return { start, speed, at: toNumber(question.at), off: toNumber(question.off) };
    default:
      return { start, speed };
  }
}

/**
 * Returns the answer time in milliseconds, limited to a day. A question left open overnight is then
 * slow, but not an error.
 */
export function answerTime({ stopwatch }: Pick<SessionPorts, 'stopwatch'>): number {
  return Math.min(86_400_000, stopwatch.read());
}
