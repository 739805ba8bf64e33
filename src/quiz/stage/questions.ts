/** What all sessions do alike with a question: make, draw, grade and record it. */

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

/** The source of questions, by the current settings. */
export function askerFor(chart: Chart, settings: Settings): Asker {
  const tolerance = toleranceFor(toleranceOf(settings), chart.document.printStep);
  return { chart, tolerance, speeds: ['medium'] };
}

/** The mirror of a question's picture: a beginner may keep to the printed one. */
export function mirrorFor(
  { pictures }: Pick<Settings, 'pictures'>,
  id: string,
  times: number,
): Mirror {
  return pictures === 'all' ? pictureFor(id, times) : (MIRRORS[0] as Mirror);
}

/** Grades values by the question's tolerance and the player's own pace for its kind. */
export function gradeFor(
  { log }: Pick<SessionPorts, 'log'>,
  question: Question,
  values: Given['values'],
  ms: number,
): Given {
  const pace = paceOf(log.peek().times.get(question.kind) ?? []);
  return { values, grade: gradeAnswer(values, question.truth, question.tolerance, ms, pace) };
}

/** An answer as the log stores it; "show me" has no numbers and is off. */
export function givenParts(given: Given | null): Pick<Answered, 'answer' | 'errors' | 'outcome'> {
  if (!given) return { answer: null, errors: null, outcome: 'off' };
  const { errors, outcome } = given.grade;
  return { answer: given.values.map(toNumber), errors: errors.map(toNumber), outcome };
}

/** A question's place on the table and speed, as the log stores them; diamonds. */
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

/** Milliseconds, at most a day: a question left open overnight is slow, not an error. */
export function answerTime({ stopwatch }: Pick<SessionPorts, 'stopwatch'>): number {
  return Math.min(86_400_000, stopwatch.read());
}
