/** Words for placement and its results. */

import { type Decimal, formatDecimal, patternOf } from '../../charts/index.ts';
import { PROVED } from '../../scheduler/index.ts';
import type { Placed, PlacedPattern } from './course.ts';
import { ENOUGH_MISSES } from './placement.ts';
import type { Answered } from './session.ts';

/** Says for how many days a proven line is taken to be remembered at first. */
export const PROVED_WORDS = `A proven line is taken to be held for ${PROVED.pocketed} days, for ${PROVED['dead center']} if it was quick and dead center, for ${PROVED.rattled} if it was slow or near the edge of the tolerance; one that follows from its neighbours for ${PROVED.implied}.`;

/** Says when a pattern ends early; see `placement.ts` for the rule. */
export const ENDS_WORDS = `A pattern ends as soon as its misses are ${ENOUGH_MISSES} more than its hits; its lines that are not proven are left to be learned.`;

/** Returns the result for the line that was asked, and for the lines that follow from it. */
export function resultWords({
  right,
  follow,
  last,
}: Pick<Answered, 'right' | 'follow' | 'last'>): string {
  if (!right) {
    const end = last ? ' That is all for this pattern.' : '';
    return `Not proven. You’ll learn this one.${end}`;
  }
  return follow === 0
    ? 'Proven.'
    : `Proven, and ${linesWords(follow)} ${follow === 1 ? 'follows' : 'follow'} from it.`;
}

/**
 * Returns, for example, "Proven: 14 lines, 9 more follow from them; they come back in 6–15
 * days."
 */
export function placedWords({ proven, implied, again }: Placed): string {
  if (proven + implied === 0 || !again) {
    return 'Nothing proven: you will learn these lines as new.';
  }
  const [them, they] = proven === 1 ? ['it', 'it comes'] : ['them', 'they come'];
  const more =
    implied === 0 ? '' : `, ${implied} more ${implied === 1 ? 'follows' : 'follow'} from ${them}`;
  const come = implied === 0 ? they : 'they come';
  return `Proven: ${linesWords(proven)}${more}; ${come} back in ${daysWords(again)}.`;
}

/**
 * Says what remains to be proven if the player stops, and that proven lines stay proven if there
 * are any.
 */
export function stoppedWords({ proven, implied }: Pick<Placed, 'proven' | 'implied'>): string {
  if (proven + implied === 0) return 'They can be proven another time.';
  return 'What is proven stays. The rest can be proven another time.';
}

function daysWords([first, last]: readonly [number, number]): string {
  if (first === last) return first === 1 ? '1 day' : `${first} days`;
  return `${first}–${last} days`;
}

function linesWords(count: number): string {
  return `${count} ${count === 1 ? 'line' : 'lines'}`;
}

/** Returns, for example, "proven 1.0, 4.0 and 6.0; 8 follow; 2 to be learned". */
export function patternWords({ proven, implied, left }: PlacedPattern): string {
  const parts = [
    proven.length > 0 ? `proven ${listWords(proven.map(({ start }) => start))}` : '',
    implied.length > 0 ? `${implied.length} ${implied.length === 1 ? 'follows' : 'follow'}` : '',
    left.length > 0 ? `${left.length} to be learned` : '',
  ];
  return parts.filter(Boolean).join('; ');
}

function listWords(starts: readonly Decimal[]): string {
  const all = starts.map((start) => formatDecimal(start));
  const last = all.pop() ?? '';
  return all.length === 0 ? `from ${last}` : `from ${all.join(', ')} and ${last}`;
}

export function patternTitle({ pattern }: Pick<PlacedPattern, 'pattern'>): string {
  return patternOf(pattern).name;
}
