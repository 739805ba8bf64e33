/** The route that a question is played on, made in one place so that question and drawing agree. */

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

/** A ball on a rail, or level with a diamond of it and some diamonds off. */
export interface BallPlace {
  readonly count: Count;
  readonly at: Decimal;
  readonly off?: Decimal;
}

/** A pattern as a kick at a ball that stands on a rail or off it. */
export function kickAt(table: Table, id: PatternId, { count, at, off }: BallPlace): Pattern {
  const pattern = { ...patternOf(id), kicks: count };
  if (off === undefined) return kickTo(pattern, toNumber(at));
  // Distances from a rail count in diamonds of the rails across its ends.
  const across = isLongRail(count.rail) ? 'foot' : 'left';
  return kickTo(pattern, toNumber(at), toNumber(off) * diamondLength(table, across));
}

/** The pattern's route, a kick at the question's ball, or a kick to where the ball arrives. */
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
