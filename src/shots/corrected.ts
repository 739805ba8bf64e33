/** Applies tonight's correction to a printed number, as players do it in their heads. */

import {
  type Decimal,
  type PatternId,
  plus,
  roundTo,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import type { Correction } from './correction-choice.ts';
import { groupOfPattern } from './correction-fit.ts';

/** A multiplied number is rounded to this. */
const ROUNDED_TO = toDecimal(0.05);

/** Returns the number to use tonight; the printed number if no correction applies to it. */
export function correctedNumber(
  corrections: readonly Correction[],
  pattern: PatternId,
  printed: Decimal,
): Decimal {
  return corrections.reduce((number, correction) => {
    if (correction.kind === 'factor') {
      return roundTo(toNumber(number) * toNumber(correction.times), ROUNDED_TO);
    }
    const { group, add } = correction;
    return group === 'all' || group === groupOfPattern(pattern) ? plus(number, add) : number;
  }, printed);
}
