/** How far a question's number lies from the model's; 0 if it is the model's own. */

import { type Chart, isMeasured, shiftAt, shiftFrom, toNumber } from '../charts/index.ts';
import type { Speed } from '../table/index.ts';
import { routeFor } from './kick.ts';
import type { Question } from './question.ts';

/** Diamonds through the sight, to subtract from an aim before it is played (`shiftAt`). */
export function shiftFor(chart: Chart, question: Question, speed: Speed): number {
  if (!('known' in question)) return shiftAt(chart, question, speed);
  const { known, start } = question;
  const measured = known.some(({ line }) => line !== null && isMeasured(chart, line.pattern));
  if (!measured) return 0;
  // An arrival gives the number; that the ball arrives at this place is what was measured.
  const number = question.kind === 'arrival' ? question.aim : question.truth[0];
  const route = routeFor(chart.setting.table, question);
  return shiftFrom(chart, route, start, toNumber(number), speed);
}
