/** Taking another's version of a chart into one's own. */

import { canonical } from './digest.ts';
import { type ChartDocument, inOrder, lastRevision, type Revision, stateOf } from './document.ts';
import { basesOf, headsApart, marksOf } from './history.ts';
import { type Conflict, mergeStates, type Side } from './merge-states.ts';
import { revise, type Signature, withinLimits } from './revise.ts';
import { MOST_REVISIONS, readChart } from './schema.ts';

export type Merge =
  /** Mine has it already. `same`: there is nothing in mine that theirs has not. */
  | { readonly outcome: 'nothing new'; readonly same: boolean }
  /** Not to be taken in. `say`: why, one sentence. */
  | { readonly outcome: 'refused'; readonly say: string }
  /** Mine has nothing of its own: theirs' revisions come after it. */
  | { readonly outcome: 'gone on'; readonly document: ChartDocument }
  | {
      readonly outcome: 'merged';
      readonly document: ChartDocument;
      readonly conflicts: readonly Conflict[];
      /** A revision that both came from is known; else every difference is a conflict. */
      readonly related: boolean;
      /** The last revision is one of its own, with the signature; else it is theirs. */
      readonly signed: boolean;
    };

/**
 * My chart with theirs taken in: my revisions, then those of theirs that mine has not got, then one
 * that joins them. Revisions are known by what they say; their numbers go on from mine.
 * @param keep whose value a conflict gets
 * @param except choices of conflicts that get the other side's
 * @throws if the two are not one chart by their ids
 */
export function mergeCharts(
  mine: ChartDocument,
  theirs: ChartDocument,
  keep: Side,
  signature: Signature,
  except: ReadonlySet<string> = new Set(),
): Merge {
  if (mine.id !== theirs.id) throw new Error(`${mine.id} and ${theirs.id} are two charts`);
  const other = headsApart(mine, theirs);
  if (other) return { outcome: 'refused', say: other };
  const own = marksOf(mine);
  const others = marksOf(theirs);
  if (own.includes(others.at(-1) ?? ''))
    return { outcome: 'nothing new', same: others.includes(own.at(-1) ?? '') };
  const followed = followedBy(mine, theirs, own, others);
  if (others.includes(own.at(-1) ?? '')) return checked({ outcome: 'gone on', document: followed });
  const bases = basesOf(mine, theirs, own, others);
  const choose = (choice: string): Side =>
    except.has(choice) ? (keep === 'mine' ? 'theirs' : 'mine') : keep;
  const { state, conflicts } = mergeStates(bases, lastRevision(mine), lastRevision(theirs), choose);
  const signed = canonical(state) !== canonical(inOrder(stateOf(lastRevision(theirs))));
  const document = signed ? revise(followed, state, signature) : followed;
  return checked({ outcome: 'merged', document, conflicts, related: bases.length > 0, signed });
}

/** Those of a document's revisions that are not known, and marks of those it left out. */
function followedBy(
  mine: ChartDocument,
  theirs: ChartDocument,
  own: readonly string[],
  others: readonly string[],
): ChartDocument {
  const isNew = (mark: string | undefined) => mark !== undefined && !own.includes(mark);
  const added = theirs.revisions.filter((_, n) => isNew(others[theirs.earlier.length + n]));
  const leftOut = theirs.earlier.filter((_, n) => isNew(others[n]));
  const last = lastRevision(mine).number;
  const numbered = added.map((one, n): Revision => ({ ...one, number: last + 1 + n }));
  return {
    ...mine,
    earlier: [...mine.earlier, ...leftOut],
    revisions: [...mine.revisions, ...numbered],
  };
}

/** Within what a chart can hold: the oldest revisions become digests. */
function checked(merge: Extract<Merge, { readonly document: ChartDocument }>): Merge {
  const { document } = merge;
  const earlier = document.earlier.slice(-MOST_REVISIONS);
  const read = readChart(withinLimits({ ...document, earlier }));
  return read.ok
    ? { ...merge, document: read.document }
    : { outcome: 'refused', say: `Together with yours, the chart ${read.say}.` };
}
