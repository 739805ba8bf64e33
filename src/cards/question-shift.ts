/** Computes how far a question's number is from the model's; 0 if it is the model's own number. */

import { type Chart, isMeasured, shiftAt, shiftFrom, toNumber } from '../charts/index.ts';
import type { Speed } from '../table/index.ts';
import { routeFor } from './kick.ts';
import type { Question } from './question.ts';

/**
 * Returns the shift to subtract from an aim before it is played (`shiftAt`), in diamonds through
 * the sight.
 */
export function shiftFor(chart: Chart, question: Question, speed: Speed): number {
  if (!('known' in question)) return shiftAt(chart, question, speed);
  const { known, start } = question;
  const measured = known.some(({ line }) => line !== null && isMeasured(chart, line.pattern));
  if (!measured) return 0;
  // An arrival question gives the number. What was measured is that the ball arrives at this place.
  const number = question.kind === 'arrival' ? question.aim : question.truth[0];
  const route = routeFor(chart.setting.table, question);
  return shiftFrom(chart, route, start, toNumber(number), speed);
}
