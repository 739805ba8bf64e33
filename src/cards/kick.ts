/**
 * Makes the route that a question is played on. It is made only here, so that question and drawing
 * agree.
 */

import {
  type Decimal,
  kickTo,
  type Pattern,
  type PatternId,
  patternOf,
  toNumber,
} from '../charts/index.ts';
import { type Count, diamondLength, isLongRail, type Table } from '../table/index.ts';
import type { Question } from './question.ts';

/**
 * The place of a ball: on a rail at a diamond, or level with that diamond and `off` diamonds off
 * the rail.
 */
export interface BallPlace {
  readonly count: Count;
  readonly at: Decimal;
  readonly off?: Decimal;
}

/** Returns a pattern as a kick at a ball on a rail or off it. */
export function kickAt(table: Table, id: PatternId, { count, at, off }: BallPlace): Pattern {
  const pattern = { ...patternOf(id), kicks: count };
  if (off === undefined) return kickTo(pattern, toNumber(at));
  // The distance from a rail is measured in diamonds of the rails at its ends.
  const across = isLongRail(count.rail) ? 'foot' : 'left';
  return kickTo(pattern, toNumber(at), toNumber(off) * diamondLength(table, across));
}

/**
 * Returns the route for a question: the pattern itself, a kick at the question's ball, or a kick to
 * where the ball arrives.
 */
export function routeFor(table: Table, question: Question): Pattern {
  switch (question.kind) {
    case 'rail ball':
    case 'off the rail':
      return kickAt(table, question.pattern, question);
    case 'arrival':
      return kickAt(table, question.pattern, { count: question.count, at: question.truth[0] });
    default:
      return patternOf(question.pattern);
  }
}
