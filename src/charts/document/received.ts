/** What a chart that comes from outside would be here: new, known already, or an update. */

import { type ChartDocument, lastRevision } from './document.ts';
import { type Merge, mergeCharts } from './merge.ts';
import type { Side } from './merge-states.ts';
import type { Signature } from './revise.ts';

export type Receipt =
  | { readonly at: 'new'; readonly document: ChartDocument }
  | {
      readonly at: 'known';
      readonly mine: ChartDocument;
      readonly theirs: ChartDocument;
      readonly merge: Merge;
    };

/** How conflicts are settled: one side's way, but for some of them. */
export interface Settling {
  readonly keep: Side;
  readonly except: ReadonlySet<string>;
}

export const KEEP_MINE: Settling = { keep: 'mine', except: new Set() };

/** Stands in while nothing is kept: what is shown before the player signs is the same. */
const UNSIGNED: Signature = { date: '2000-01-01', author: '-', why: '-' };

export function receiptOf(
  kept: readonly ChartDocument[],
  document: ChartDocument,
  { keep, except }: Settling,
  signature: Signature = UNSIGNED,
): Receipt {
  const mine = kept.find(({ id }) => id === document.id);
  if (!mine) return { at: 'new', document };
  const merge = mergeCharts(mine, document, keep, signature, except);
  return { at: 'known', mine, theirs: document, merge };
}

/** "Taken in from revision 4 of Harbour Lane instruction." */
export function mergeWhy(theirs: ChartDocument): string {
  const { number, author } = lastRevision(theirs);
  return `Taken in: revision ${number} by ${author}.`;
}

/** The side that a conflict's choice is settled for. */
export function sideOf({ keep, except }: Settling, choice: string): Side {
  return except.has(choice) ? (keep === 'mine' ? 'theirs' : 'mine') : keep;
}

/** One choice settled for a side, the others as they are. */
export function settled({ keep, except }: Settling, choice: string, side: Side): Settling {
  const others = [...except].filter((one) => one !== choice);
  return { keep, except: new Set(side === keep ? others : [...others, choice]) };
}
