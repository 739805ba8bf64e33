/** Going on with a chart: a new revision, an old one restored. */

import { digestOf } from './digest.ts';
import {
  type ChartDocument,
  type ChartState,
  inOrder,
  lastRevision,
  type Revision,
  stateOf,
} from './document.ts';
import { MOST_REVISIONS } from './schema.ts';

/** Who made a revision, when and why; ISO 8601 calendar date. */
export type Signature = Pick<Revision, 'date' | 'author' | 'why'>;

/** The document with one revision more. */
export function revise(
  document: ChartDocument,
  state: ChartState,
  signature: Signature,
): ChartDocument {
  const { date, author, why } = signature;
  const number = lastRevision(document).number + 1;
  const revision: Revision = { number, date, author, why, ...inOrder(stateOf(state)) };
  return withinLimits({ ...document, revisions: [...document.revisions, revision] });
}

/** The document with an earlier state again, as a new revision; null if it has no such number. */
export function restore(
  document: ChartDocument,
  number: number,
  signature: Signature,
): ChartDocument | null {
  const earlier = document.revisions.find((revision) => revision.number === number);
  return earlier ? revise(document, earlier, signature) : null;
}

/** Digests of all its revisions, also of those left out, oldest first. */
export function digestsOf({ earlier, revisions }: ChartDocument): readonly string[] {
  return [...earlier, ...revisions.map(digestOf)];
}

/** The document with its last revision only: what a link carries. */
export function slim(document: ChartDocument): ChartDocument {
  return withoutOldest(document, document.revisions.length - 1);
}

/** The document without so many of its oldest revisions, of which it keeps one at least. */
export function withoutOldest(document: ChartDocument, count: number): ChartDocument {
  const [first = lastRevision(document), ...rest] = document.revisions.slice(count);
  const earlier = digestsOf(document).slice(0, -1 - rest.length);
  return { ...document, earlier: earlier.slice(-MOST_REVISIONS), revisions: [first, ...rest] };
}

/** Within what a chart can hold: the oldest revisions become digests. */
export function withinLimits(document: ChartDocument): ChartDocument {
  const over = document.revisions.length - MOST_REVISIONS;
  return over > 0 ? withoutOldest(document, over) : document;
}
