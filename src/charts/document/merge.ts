/** Merges another person's version of a chart into the player's own. */

import { canonical } from './digest.ts';
import { type ChartDocument, inOrder, lastRevision, type Revision, stateOf } from './document.ts';
import { basesOf, marksOf, whyDifferentCharts } from './history.ts';
import { MOST_REVISIONS } from './limits.ts';
import { type Conflict, mergeStates, type Side, sideOf } from './merge-states.ts';
import { readChart } from './read.ts';
import { revise, type Signature, withinLimits } from './revise.ts';

export type Merge =
  /** Mine has all revisions of theirs. `same`: theirs also has all of mine. */
  | { readonly outcome: 'nothing new'; readonly same: boolean }
  /** The two cannot be merged. `say` gives the reason in one sentence. */
  | { readonly outcome: 'refused'; readonly say: string }
  /** Theirs has all revisions of mine, so its further revisions are appended. */
  | { readonly outcome: 'continued'; readonly document: ChartDocument }
  | {
      readonly outcome: 'merged';
      readonly document: ChartDocument;
      readonly conflicts: readonly Conflict[];
      /** Whether the two have a revision in common. If not, every difference is a conflict. */
      readonly related: boolean;
      /**
       * Whether the merge adds a revision with the signature. If not, the last revision is theirs.
       */
      readonly signed: boolean;
    };

/**
 * Merges their chart into mine. The result has my revisions, then those of theirs that mine does
 * not have, then one revision that joins the two. Revisions are matched by content; the added ones
 * are numbered from mine on.
 * @param keep the side that wins conflicts
 * @param except the choices in which the other side wins
 * @throws if the ids differ
 */
export function mergeCharts(
  mine: ChartDocument,
  theirs: ChartDocument,
  keep: Side,
  signature: Signature,
  except: ReadonlySet<string> = new Set(),
): Merge {
  if (mine.id !== theirs.id) throw new Error(`${mine.id} and ${theirs.id} are two charts`);
  const why = whyDifferentCharts(mine, theirs);
  if (why) return { outcome: 'refused', say: why };
  const own = marksOf(mine);
  const others = marksOf(theirs);
  const theyHaveMine = others.includes(own.at(-1) ?? '');
  if (own.includes(others.at(-1) ?? '')) return { outcome: 'nothing new', same: theyHaveMine };
  const appended = withRevisionsOf(mine, theirs, own, others);
  if (theyHaveMine) return checked({ outcome: 'continued', document: appended });
  const bases = basesOf(mine, theirs, own, others);
  const [ours, tip] = [lastRevision(mine), lastRevision(theirs)];
  const { state, conflicts } = mergeStates(bases, ours, tip, (choice) =>
    sideOf({ keep, except }, choice),
  );
  const signed = canonical(state) !== canonical(inOrder(stateOf(tip)));
  const document = signed ? revise(appended, state, signature) : appended;
  return checked({ outcome: 'merged', document, conflicts, related: bases.length > 0, signed });
}

/**
 * Appends to mine the revisions that it does not have, and the digests of revisions that theirs
 * leaves out.
 */
function withRevisionsOf(
  mine: ChartDocument,
  theirs: ChartDocument,
  own: readonly string[],
  others: readonly string[],
): ChartDocument {
  const isNew = (mark: string | undefined) => mark !== undefined && !own.includes(mark);
  const added = theirs.revisions.filter((_, n) => isNew(others[theirs.earlier.length + n]));
  const digests = theirs.earlier.filter((_, n) => isNew(others[n]));
  const last = lastRevision(mine).number;
  const numbered = added.map((one, n): Revision => ({ ...one, number: last + 1 + n }));
  return {
    ...mine,
    earlier: [...mine.earlier, ...digests],
    revisions: [...mine.revisions, ...numbered],
  };
}

/** Keeps the merged chart within its limits, or refuses the merge. */
function checked(merge: Extract<Merge, { readonly document: ChartDocument }>): Merge {
  const { document } = merge;
  const earlier = document.earlier.slice(-MOST_REVISIONS);
  const read = readChart(withinLimits({ ...document, earlier }));
  return read.ok
    ? { ...merge, document: read.document }
    : { outcome: 'refused', say: `Together with yours, the chart ${read.say}.` };
}
