/** Puts persistent biases into words, for the Memory page. */

import { formatDecimal, patternOf, toDecimal } from '../../charts/index.ts';
import type { Bias } from '../../scheduler/index.ts';

/** Returns a sentence such as "You call Cross-side 0.1 high." */
export function biasHead(bias: Bias): string {
  const size = formatDecimal(toDecimal(bias.size), 1);
  return `You call ${biasedName(bias)} ${size} ${bias.side}.`;
}

/** Returns a name such as "Cross-side" or "Cross-side from 3.0". */
export function biasedName(bias: Bias): string {
  if (bias.of === 'pattern') return patternOf(bias.pattern).name;
  const { pattern, start } = bias.card;
  return `${patternOf(pattern).name} from ${formatDecimal(start)}`;
}

/** Returns a sentence such as "31 of the last 40 answers to 8 lines were too high, on 12 days." */
export function biasFacts(bias: Bias): string {
  const { leaning, answers, days, side } = bias;
  const to = bias.of === 'pattern' ? ` to ${bias.lines} lines` : '';
  return `${leaning} of the last ${answers} answers${to} were too ${side}, on ${days} days.`;
}

/** Says what the player can do about the biases. */
export function biasRemedy(biases: readonly Pick<Bias, 'side'>[]): string {
  const sides = new Set(biases.map(({ side }) => side));
  const which = sides.size > 1 ? 'less where you call high, more where you call low' : '';
  const other = sides.has('high') ? 'a little less' : 'a little more';
  return `Before you answer one of these, ask yourself whether ${which || other} is the number.`;
}
