/** Adds revisions to a chart: new ones, and restored old ones. */

import { digestOf } from './digest.ts';
import {
  type ChartDocument,
  type ChartState,
  inOrder,
  lastRevision,
  type Revision,
  stateOf,
} from './document.ts';
import { MOST_REVISIONS } from './limits.ts';

/** Who made a revision, when (ISO 8601 calendar date) and why. */
export type Signature = Pick<Revision, 'date' | 'author' | 'why'>;

/** Appends a revision. */
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

/** Appends an earlier revision's state as a new one; null if there is no such number. */
export function restore(
  document: ChartDocument,
  number: number,
  signature: Signature,
): ChartDocument | null {
  const earlier = document.revisions.find((revision) => revision.number === number);
  return earlier ? revise(document, earlier, signature) : null;
}

/** Digests of all revisions, left out ones included, oldest first. */
export function digestsOf({ earlier, revisions }: ChartDocument): readonly string[] {
  return [...earlier, ...revisions.map(digestOf)];
}

/** Only the last revision and the digests of the others, for a link. */
export function slim(document: ChartDocument): ChartDocument {
  return withoutOldest(document, document.revisions.length - 1);
}

/** Turns the oldest revisions into digests; the last revision always stays. */
export function withoutOldest(document: ChartDocument, count: number): ChartDocument {
  const [first = lastRevision(document), ...rest] = document.revisions.slice(count);
  const earlier = digestsOf(document).slice(0, -1 - rest.length);
  return { ...document, earlier: earlier.slice(-MOST_REVISIONS), revisions: [first, ...rest] };
}

/** Keeps a chart within its limits: the oldest revisions become digests. */
export function withinLimits(document: ChartDocument): ChartDocument {
  const over = document.revisions.length - MOST_REVISIONS;
  return over > 0 ? withoutOldest(document, over) : document;
}
