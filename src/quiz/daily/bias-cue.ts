/**
 * Words that warn the player of a persistent bias. Loaded only when first needed; see `BiasNote`.
 */

import type { Card } from '../../cards/index.ts';
import { type Chart, formatDecimal, patternOf, toDecimal } from '../../charts/index.ts';
import { type Bias, biasesOf, type RecentErrors } from '../../scheduler/index.ts';

/**
 * Returns, for example, "You tend to call this line 0.1 high: 7 of your last 8." If the line itself
 * has no bias, it says the same about the line's pattern. Null if neither bias is beyond chance,
 * and for cards that ask no number.
 */
export function biasCue(
  memories: RecentErrors,
  cards: readonly Card[],
  card: Card,
  today: number,
  chart: Chart,
): string | null {
  if (card.kind !== 'number') return null;
  const biases = biasesOf(memories, cards, today, chart.document.printStep);
  const own = biases.find((bias) => bias.of === 'line' && bias.card.id === card.id);
  const pattern = biases.find((bias) => bias.of === 'pattern' && bias.pattern === card.pattern);
  const bias = own ?? pattern;
  return bias ? cueWords(bias) : null;
}

function cueWords(bias: Bias): string {
  const { leaning, answers } = bias;
  const what = bias.of === 'line' ? 'this line' : `numbers on ${patternOf(bias.pattern).name}`;
  return `You tend to call ${what} ${leanWords(bias)}: ${leaning} of your last ${answers}.`;
}

/** Returns, for example, "0.1 high". */
function leanWords({ size, side }: Bias): string {
  return `${formatDecimal(toDecimal(size), 1)} ${side}`;
}
