/**
 * Joins several versions of one chart without asking: this is how a player's devices combine their
 * edits. The outcome depends on the set of versions alone, not on who joins them or in which order,
 * and joining a version again changes nothing.
 *
 * A version is behind if another one has its last revision and more. Versions that diverged are
 * merged cell by cell; where both changed a cell, the later-dated version wins. All revisions are
 * kept, so the player can return to what was overruled.
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
  /** A different chart with the same id was among the versions and is left out. */
  readonly leftOut: boolean;
}

/**
 * @param mine this device's version, which decides what counts as the same chart; null if none
 * @throws if there is no version at all
 */
export function joinCharts(mine: ChartDocument | null, others: readonly ChartDocument[]): Joined {
  const all = inRank(mine ? [mine, ...others] : others);
  const first = mine ?? all[0]?.document;
  if (!first) throw new Error('no version of a chart to join');
  const same = all.filter(({ document }) => whyDifferentCharts(first, document) === null);
  return { document: joinedOf(same).document, leftOut: same.length < all.length };
}

/** A version with what is needed of it repeatedly. */
interface Version {
  readonly document: ChartDocument;
  readonly text: string;
  /** Of all its revisions in order (`marksOf`). */
  readonly marks: readonly string[];
  readonly has: ReadonlySet<string>;
  /** The revisions that it has in full, by mark. */
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

/** Each version once, the one whose edits win last: by date, then by content. */
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
  // Devices never make a circle of versions, each behind the next, but forged files may.
  const leaders = onePerTip(ahead.length > 0 ? ahead : ranked);
  const leader = leaders.reduce((joined, next) => merged(joined, next));
  return ranked.reduce((joined, other) => withHistoryOf(joined, other), leader);
}

function continues(one: Version, other: Version): boolean {
  return one.has.has(other.tip) && !other.has.has(one.tip);
}

/** Versions with the same last revision differ only in how much history they have. */
function onePerTip(versions: readonly Version[]): readonly Version[] {
  const byTip = new Map<string, Version>();
  for (const one of versions) {
    const known = byTip.get(one.tip);
    byTip.set(one.tip, known ? withHistoryOf(one, known) : one);
  }
  return [...byTip.values()];
}

/**
 * Puts the other version's missing revisions before this one's own, as far as there is room: a full
 * chart stays as it is.
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
  // Merged cell by cell, it may exceed a chart's limits; the later version alone does not.
  return parseChart(joined.document)
    ? joined
    : withJoint(earlier, later, { ...joint, ...inOrder(stateOf(tip)) });
}

/** All revisions of one version, the other's missing ones, and the one that joins them. */
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

/** The part of the other's history that both have. */
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

/** Numbers revisions that go before others, shifting the others only as far as necessary. */
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

/** Keeps a chart within its limits: the oldest revisions become digests, the oldest digests go. */
function limited(
  document: ChartDocument,
  earlier: readonly string[],
  revisions: readonly Revision[],
): Version {
  const [first = lastRevision(document), ...rest] = revisions;
  const whole = withinLimits({ ...document, earlier, revisions: [first, ...rest] });
  return versionOf({ ...whole, earlier: whole.earlier.slice(-MOST_REVISIONS) });
}
