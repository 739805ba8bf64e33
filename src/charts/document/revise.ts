/** Adds revisions to a chart: new ones, and old ones that are restored. */

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

/**
 * Appends the state of an earlier revision as a new revision; returns null if there is no revision
 * with that number.
 */
export function restore(
  document: ChartDocument,
  number: number,
  signature: Signature,
): ChartDocument | null {
  const earlier = document.revisions.find((revision) => revision.number === number);
  return earlier ? revise(document, earlier, signature) : null;
}

/** Returns the digests of all revisions, oldest first, including those that were left out. */
export function digestsOf({ earlier, revisions }: ChartDocument): readonly string[] {
  return [...earlier, ...revisions.map(digestOf)];
}

/** Returns a chart with only its last revision and the digests of the others, for a link. */
export function slim(document: ChartDocument): ChartDocument {
  return withoutOldest(document, document.revisions.length - 1);
}

/** Turns the oldest revisions into digests. The last revision always stays. */
export function withoutOldest(document: ChartDocument, count: number): ChartDocument {
  const [first = lastRevision(document), ...rest] = document.revisions.slice(count);
  const earlier = digestsOf(document).slice(0, -1 - rest.length);
  return { ...document, earlier: earlier.slice(-MOST_REVISIONS), revisions: [first, ...rest] };
}

/** Keeps a chart within its limits by turning the oldest revisions into digests. */
export function withinLimits(document: ChartDocument): ChartDocument {
  const over = document.revisions.length - MOST_REVISIONS;
  return over > 0 ? withoutOldest(document, over) : document;
}
