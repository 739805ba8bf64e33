/**
 * Joins several versions of one chart without asking the player. This is how a player's devices
 * combine their edits. The result depends only on the set of versions, not on who joins them or in
 * which order. Joining a version a second time changes nothing.
 *
 * A version is behind if another one has its last revision and later ones too. Versions that
 * diverged are merged cell by cell. Where both changed a cell, the version with the later date
 * wins. All revisions are kept, so the player can return to what was overruled.
 */

import { canonical, digestOf } from './digest.ts';
import { type ChartDocument, inOrder, lastRevision, type Revision, stateOf } from './document.ts';
import { basesOf, marksOf, whyDifferentCharts } from './history.ts';
import { MOST_REVISIONS } from './limits.ts';
import { mergeStates } from './merge-states.ts';
import { parseChart } from './read.ts';
import { withinLimits } from './revise.ts';

export interface Joined {
  readonly document: ChartDocument;
  /** Whether a different chart with the same id was among the versions and was left out. */
  readonly leftOut: boolean;
}

/**
 * Joins this device's version of a chart with others.
 * @param mine this device's version, which decides what counts as the same chart; null if there is
 *   none
 * @throws if there is no version at all
 */
export function joinCharts(mine: ChartDocument | null, others: readonly ChartDocument[]): Joined {
  const all = inRank(mine ? [mine, ...others] : others);
  const first = mine ?? all[0]?.document;
  if (!first) throw new Error('no version of a chart to join');
  const same = all.filter(({ document }) => whyDifferentCharts(first, document) === null);
  return { document: joinedOf(same).document, leftOut: same.length < all.length };
}

/** A version, with values that are needed more than once. */
interface Version {
  readonly document: ChartDocument;
  readonly text: string;
  /** The marks of all its revisions in order (`marksOf`). */
  readonly marks: readonly string[];
  readonly has: ReadonlySet<string>;
  /** The revisions that it has in full, by their marks. */
  readonly contents: ReadonlyMap<string, Revision>;
  readonly tip: string;
}

function versionOf(document: ChartDocument): Version {
  const marks = marksOf(document);
  const count = document.earlier.length;
  return {
    document,
    text: canonical(document),
    marks,
    has: new Set(marks),
    contents: new Map(document.revisions.map((one, n) => [marks[count + n] ?? '', one])),
    tip: marks.at(-1) ?? '',
  };
}

/**
 * Returns each version once, ordered by date and then by content. The last is the one with the
 * edits that win.
 */
function inRank(documents: readonly ChartDocument[]): readonly Version[] {
  const byText = new Map(documents.map(versionOf).map((one) => [one.text, one]));
  const ranked = [...byText.values()].map((version) => ({ version, rank: rankOf(version) }));
  return ranked.sort((a, b) => (a.rank < b.rank ? -1 : 1)).map(({ version }) => version);
}

function rankOf({ document, text }: Version): string {
  const last = lastRevision(document);
  const count = String(document.revisions.length).padStart(4, '0');
  return `${last.date} ${digestOf(last)} ${count} ${text}`;
}

function joinedOf(ranked: readonly Version[]): Version {
  const ahead = ranked.filter((one) => !ranked.some((other) => continues(other, one)));
  // Devices never make a circle of versions in which each is behind the next, but forged files may.
  const leaders = onePerTip(ahead.length > 0 ? ahead : ranked);
  const leader = leaders.reduce((joined, next) => merged(joined, next));
  return ranked.reduce((joined, other) => withHistoryOf(joined, other), leader);
}

function continues(one: Version, other: Version): boolean {
  return one.has.has(other.tip) && !other.has.has(one.tip);
}

/** Joins versions with the same last revision. They differ only in how much history they have. */
function onePerTip(versions: readonly Version[]): readonly Version[] {
  const byTip = new Map<string, Version>();
  for (const one of versions) {
    const known = byTip.get(one.tip);
    byTip.set(one.tip, known ? withHistoryOf(one, known) : one);
  }
  return [...byTip.values()];
}

/**
 * Puts the revisions that are missing here, but that the other version has, before this version's
 * own. It adds only as many as there is room for, so a full chart stays as it is.
 */
function withHistoryOf(version: Version, other: Version): Version {
  const { document } = version;
  const { earlier, revisions } = document;
  const missing = last(
    [...other.contents].filter(([mark]) => !version.contents.has(mark)),
    MOST_REVISIONS - revisions.length,
  );
  const added = new Set(missing.map(([mark]) => mark));
  const unknown = last(
    other.marks.filter((mark) => !version.has.has(mark) && !added.has(mark)),
    MOST_REVISIONS - earlier.length,
  );
  if (missing.length === 0 && unknown.length === 0) return version;
  const own = version.marks.slice(0, earlier.length).filter((mark) => !added.has(mark));
  const before = missing.map(([, revision]) => revision);
  return limited(document, [...unknown, ...own].map(digestIn), numbered(before, revisions));
}

function last<T>(list: readonly T[], most: number): readonly T[] {
  return list.slice(Math.max(0, list.length - Math.max(0, most)));
}

/** Merges two versions that diverged. Where both changed a cell, `later` wins. */
function merged(earlier: Version, later: Version): Version {
  const [own, tip] = [lastRevision(earlier.document), lastRevision(later.document)];
  const bases = basesOf(earlier.document, later.document, earlier.marks, later.marks);
  const { state, conflicts } = mergeStates(bases, own, tip, () => 'theirs');
  const signature = { date: tip.date, author: tip.author, why: whyOf(conflicts.length) };
  const joint = { number: 1, ...signature, ...inOrder(stateOf(state)) };
  const joined = withJoint(earlier, later, joint);
  // The result of merging cell by cell may exceed a chart's limits. The later version alone does
  // not.
  return parseChart(joined.document)
    ? joined
    : withJoint(earlier, later, { ...joint, ...inOrder(stateOf(tip)) });
}

/**
 * Returns all revisions of one version, then those that only the other has, then the one that joins
 * the two.
 */
function withJoint(one: Version, other: Version, joint: Revision): Version {
  const whole = withHistoryOf(one, { ...other, ...sharedWith(one, other) });
  const { earlier, revisions } = whole.document;
  const digestsOnly = other.marks
    .slice(0, other.document.earlier.length)
    .filter((mark) => !one.has.has(mark));
  const added = [...other.contents].filter(([mark]) => !one.has.has(mark));
  const next = lastRevision(whole.document).number + 1;
  const after = [...added.map(([, revision]) => revision), joint].map((revision, n) => ({
    ...revision,
    number: next + n,
  }));
  return limited(
    whole.document,
    [...earlier, ...digestsOnly.map(digestIn)],
    [...revisions, ...after],
  );
}

/** Returns the part of the other version's history that both versions have. */
function sharedWith({ has }: Version, { marks, contents }: Version) {
  const shared = marks.filter((mark) => has.has(mark));
  return {
    marks: shared,
    contents: new Map([...contents].filter(([mark]) => has.has(mark))),
  };
}

const JOINED = 'Edits of two devices, joined.';

function whyOf(conflicts: number): string {
  if (conflicts === 0) return JOINED;
  const what = conflicts === 1 ? 'one value' : `${conflicts} values`;
  return `${JOINED} Both had changed ${what}: the later edit stands.`;
}

function digestIn(mark: string): string {
  return mark.split(' ')[0] ?? mark;
}

/**
 * Numbers revisions that are put before others. The others are renumbered only if there is not
 * enough room below them.
 */
function numbered(
  before: readonly Revision[],
  revisions: readonly Revision[],
): readonly Revision[] {
  if (before.length === 0) return revisions;
  const first = revisions[0]?.number ?? 1;
  const shift = Math.max(0, before.length + 1 - first);
  return [
    ...before.map((one, n) => ({ ...one, number: first + shift - before.length + n })),
    ...revisions.map((one) => (shift > 0 ? { ...one, number: one.number + shift } : one)),
  ];
}

/**
 * Keeps a chart within its limits. The oldest revisions become digests; the oldest digests are
 * dropped.
 */
function limited(
  document: ChartDocument,
  earlier: readonly string[],
  revisions: readonly Revision[],
): Version {
  const [first = lastRevision(document), ...rest] = revisions;
  const whole = withinLimits({ ...document, earlier, revisions: [first, ...rest] });
  return versionOf({ ...whole, earlier: whole.earlier.slice(-MOST_REVISIONS) });
}
