/** Tonight's correction, done to a printed number as it is done in the head. */

import type { PatternId } from '../charts/index.ts';
import { type Decimal, plus, roundTo, toDecimal, toNumber } from '../charts/index.ts';
import type { Correction } from './correction-choice.ts';
import { groupOfPattern } from './correction-fit.ts';

/** Numbers that were multiplied are called to this. */
const CALLED = toDecimal(0.05);

/** The number to call tonight; the printed one itself if nothing is said of it. */
export function correctedNumber(
  say: readonly Correction[],
  pattern: PatternId,
  printed: Decimal,
): Decimal {
  return say.reduce((number, correction) => {
    if (correction.kind === 'factor') {
      return roundTo(toNumber(number) * toNumber(correction.times), CALLED);
    }
    const { group, add } = correction;
    return group === 'all' || group === groupOfPattern(pattern) ? plus(number, add) : number;
  }, printed);
}
