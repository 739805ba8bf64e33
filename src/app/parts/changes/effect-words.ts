/** Says in a sentence what adopting a chart does to memory. */

import type { Effects } from '../../../cards/index.ts';

export type EffectCounts = Omit<Effects, 'moves'>;

/**
 * Returns a sentence such as "Of the 48 lines that you have learned, 3 move beyond your tolerance
 * and come back today, 5 shift slightly, 40 are untouched; 12 you have not learned yet."
 */
export function effectWords(effects: EffectCounts): string {
  const { moved, shifted, left, untouched, unlearned } = effects;
  const learned = moved + shifted + left + untouched;
  if (learned === 0)
    return `You have learned none of its ${lines(unlearned)} yet: nothing changes for you.`;
  const changes = [
    moved > 0 && `${moved} ${moved === 1 ? MOVES : MOVE}`,
    shifted > 0 && `${shifted} ${shifted === 1 ? 'shifts' : 'shift'} slightly`,
    left > 0 && `${left} ${left === 1 ? LEAVES : LEAVE}`,
  ].filter((part) => part !== false);
  const rest = unlearned > 0 ? `; ${unlearned} you have not learned yet` : '';
  if (changes.length === 0)
    return `Nothing that you have learned changes: ${lines(untouched)}${rest}.`;
  if (untouched > 0) changes.push(`${untouched} ${untouched === 1 ? 'is' : 'are'} untouched`);
  const counted = moved + shifted > 0 ? ` ${COUNTED}` : '';
  return `Of the ${lines(learned)} that you have learned, ${changes.join(', ')}${rest}.${counted}`;
}

const MOVES = 'moves beyond your tolerance and comes back today';
const MOVE = 'move beyond your tolerance and come back today';
/** Explains the counts, because printed numbers may have drifted since the player learned them. */
const COUNTED =
  'This counts from the numbers that you learned, not from those that were printed last.';
const LEAVES = 'leaves the chart and keeps its memory';
const LEAVE = 'leave the chart and keep their memory';

function lines(count: number): string {
  return `${count} ${count === 1 ? 'line' : 'lines'}`;
}
