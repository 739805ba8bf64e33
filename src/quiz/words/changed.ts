/** Words for a number that the player knew and that a revision of the chart changed. */

import type { LineKind } from '../../cards/index.ts';
import { formatDecimal, toDecimal, VERDICTS } from '../../charts/index.ts';
import type { LogState } from '../../scheduler/index.ts';

/**
 * A number as the player learned it and as it is now. Both are in diamonds, with one value per
 * field.
 */
export interface Changed {
  readonly from: readonly number[];
  readonly to: readonly number[];
  /**
   * Whether the player learned the number on a different table. In that case, no chart was revised.
   */
  readonly elsewhere: boolean;
}

/**
 * Returns the change of a card's number that the player has not seen yet; null if there is none.
 */
export function changeOf({ moved, shifts }: LogState, card: string): Changed | null {
  const one = moved.get(card);
  if (one) return { from: one.from, to: one.to, elsewhere: one.elsewhere };
  const { from, to } = shifts.get(card) ?? { from: [], to: null };
  return to && { from, to, elsewhere: false };
}

/** Returns, for example, "The chart was revised: this number was 3.2 and is 3.5." */
export function changedWords(kind: LineKind, { from, to, elsewhere }: Changed): string {
  if (elsewhere)
    return `You know ${SUBJECTS[kind]} from another table as ${valueWords(kind, from)}; here it is ${valueWords(kind, to)}.`;
  return `The chart was revised: ${SUBJECTS[kind]} was ${valueWords(kind, from)} and is ${valueWords(kind, to)}.`;
}

const SUBJECTS: Readonly<Record<LineKind, string>> = {
  number: 'this number',
  window: 'this window',
  trust: 'the verdict on this line',
};

function valueWords(kind: LineKind, values: readonly number[]): string {
  const words = (value = 0) => formatDecimal(toDecimal(value), 1, kind === 'window');
  switch (kind) {
    case 'number':
      return words(values[0]);
    case 'window':
      return `soft ${words(values[0])}, firm ${words(values[1])}`;
    case 'trust':
      return `“${VERDICTS[values[0] ?? 0] ?? 'none'}”`;
  }
}
