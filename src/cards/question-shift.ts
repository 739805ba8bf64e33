/** How far the number of a question lies from the model's: nothing, where it is the model's own. */

import { type Chart, isMeasured, shiftAt, shiftFrom, toNumber } from '../charts/index.ts';
import type { Speed } from '../table/index.ts';
import { routeFor } from './kick.ts';
import type { Question } from './question.ts';

/** What is taken off an aim before it is played, diamonds through the sight (`shiftAt`). */
export function shiftFor(chart: Chart, question: Question, speed: Speed): number {
  if (!('known' in question)) return shiftAt(chart, question, speed);
  const { known, start } = question;
  const measured = known.some(({ line }) => line !== null && isMeasured(chart, line.pattern));
  if (!measured) return 0;
  // An arrival's number is given, and what is true of the table is that it gets to that place.
  const number = question.kind === 'arrival' ? question.aim : question.truth[0];
  const route = routeFor(chart.setting.table, question);
  return shiftFrom(chart, route, start, toNumber(number), speed);
}
