/**
 * Works out what receiving a chart from outside would do: add a new chart, or merge it into a known
 * one.
 */

import { type ChartDocument, lastRevision } from './document.ts';
import { type Merge, mergeCharts } from './merge.ts';
import type { Settling, Side } from './merge-states.ts';
import type { Signature } from './revise.ts';

export type Receipt =
  | { readonly at: 'new'; readonly document: ChartDocument }
  | {
      readonly at: 'known';
      readonly mine: ChartDocument;
      readonly theirs: ChartDocument;
      readonly merge: Merge;
    };

export const KEEP_MINE: Settling = { keep: 'mine', except: new Set() };

/** A placeholder until the player signs. The preview does not show it. */
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

/** Returns the reason for a merge, such as "Taken in: revision 4 by Harbour Lane instruction." */
export function mergeWhy(theirs: ChartDocument): string {
  const { number, author } = lastRevision(theirs);
  return `Taken in: revision ${number} by ${author}.`;
}

/** Settles one choice for a side and leaves the other choices as they are. */
export function settled({ keep, except }: Settling, choice: string, side: Side): Settling {
  const others = [...except].filter((one) => one !== choice);
  return { keep, except: new Set(side === keep ? others : [...others, choice]) };
}
