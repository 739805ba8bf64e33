/** Finds how two documents of one chart are related, by the content of their revisions. */

import type { ChartDocument, Revision } from './document.ts';
import { isolated } from './isolated.ts';
import { digestsOf } from './revise.ts';

const FIXED = {
  table: 'another size of table',
  startStep: 'starts at another step',
  printStep: 'numbers printed at another step',
  basis: 'numbers that come about in another way',
} as const satisfies Partial<Record<keyof ChartDocument, string>>;

/**
 * Returns a sentence that says why two documents with the same id are different charts; null if
 * they are the same chart.
 */
export function whyDifferentCharts(mine: ChartDocument, theirs: ChartDocument): string | null {
  const fields = Object.keys(FIXED) as (keyof typeof FIXED)[];
  const field = fields.find((one) => mine[one] !== theirs[one]);
  return field === undefined
    ? null
    : `It calls itself your chart “${isolated(mine.name)}”, but has ${FIXED[field]}.`;
}

/**
 * Returns a mark for each revision, in order: its digest and a count of how often that digest has
 * occurred so far. Without the count, a chart that returns to an earlier state on the same day with
 * the same words would look older than it is.
 */
export function marksOf(document: ChartDocument): readonly string[] {
  const seen = new Map<string, number>();
  return digestsOf(document).map((digest) => {
    const times = (seen.get(digest) ?? 0) + 1;
    seen.set(digest, times);
    return `${digest} ${times}`;
  });
}

/**
 * Returns the last revision that both documents have, once by the order of theirs and once by the
 * order of mine. These are two different revisions if each document has merged the other. A
 * revision of which both have only the digest is left out.
 * @param own the marks of mine
 * @param others the marks of theirs
 */
export function basesOf(
  mine: ChartDocument,
  theirs: ChartDocument,
  own: readonly string[],
  others: readonly string[],
): readonly Revision[] {
  const marks = new Set([
    others.findLast((mark) => own.includes(mark)),
    own.findLast((mark) => others.includes(mark)),
  ]);
  return [...marks].flatMap((mark) => {
    if (mark === undefined) return [];
    return (
      theirs.revisions[others.indexOf(mark) - theirs.earlier.length] ??
      mine.revisions[own.indexOf(mark) - mine.earlier.length] ??
      []
    );
  });
}
