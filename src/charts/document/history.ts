/** How two documents of one chart hang together: known by what their revisions say. */

import type { ChartDocument, Revision } from './document.ts';
import { isolated } from './isolated.ts';
import { digestsOf } from './revise.ts';

const FIXED = {
  table: 'another size of table',
  startStep: 'starts at another step',
  printStep: 'numbers printed at another step',
  basis: 'numbers that come about in another way',
} as const satisfies Partial<Record<keyof ChartDocument, string>>;

/** Why two documents of one id cannot be one chart; null if they can. */
export function headsApart(mine: ChartDocument, theirs: ChartDocument): string | null {
  const field = (Object.keys(FIXED) as (keyof typeof FIXED)[]).find(
    (one) => mine[one] !== theirs[one],
  );
  return field === undefined
    ? null
    : `It calls itself your chart “${isolated(mine.name)}”, but has ${FIXED[field]}.`;
}

/**
 * Digests in order; each further revision that says the same counts its repeats, so that a chart
 * that came back to an earlier state on the same day with the same words is not taken for older.
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
 * The last revision that both have, in their order and in mine: two where each has merged the other.
 * One of which neither has more than the digest tells nothing and is left out.
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
