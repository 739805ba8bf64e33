/**
 * One chart out of several versions of it, without asking: what devices of one player make of their
 * edits. The outcome hangs on the set of versions alone, not on who joins them or in which order, and
 * a version that has been joined changes nothing when it comes again.
 *
 * A version is left behind if another one has its last revision and went on. Of versions that went
 * apart, each cell is as the one who changed it has it; where both changed it, the later-dated
 * version stands. All revisions are kept, so that the player can go back to what was overruled.
 */

import { canonical, digestOf } from './digest.ts';
import { type ChartDocument, inOrder, lastRevision, type Revision, stateOf } from './document.ts';
import { basesOf, headsApart, marksOf } from './history.ts';
import { mergeStates } from './merge-states.ts';
import { withinLimits } from './revise.ts';
import { MOST_REVISIONS, parseChart } from './schema.ts';

export interface Joined {
  readonly document: ChartDocument;
  /** Another chart under the same id is among the versions, and was left out. */
  readonly apart: boolean;
}

/**
 * @param mine the version that is here, with which the others have to be one chart; null if none is
 * @throws if there is no version at all
 */
export function joinCharts(mine: ChartDocument | null, others: readonly ChartDocument[]): Joined {
  const all = inRank(mine ? [mine, ...others] : others);
  const first = mine ?? all[0]?.document;
  if (!first) throw new Error('no version of a chart to join');
  const same = all.filter(({ document }) => headsApart(first, document) === null);
  return { document: joinedOf(same).document, apart: same.length < all.length };
}

/** A version with what is asked of it again and again. */
interface Version {
  readonly document: ChartDocument;
  readonly text: string;
  /** Digests of its revisions in order, with how often each came. */
  readonly marks: readonly string[];
  readonly has: ReadonlySet<string>;
  /** The revisions of which it has more than the digest, by their marks. */
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

/** Each once, the one whose edit is to stand last: later-dated, then by what it says. */
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
  const ahead = ranked.filter((one) => !ranked.some((other) => goesOnFrom(other, one)));
  // Each behind another is not to be had from devices, but would be from a forger.
  const leaders = onePerTip(ahead.length > 0 ? ahead : ranked);
  const leader = leaders.reduce((so, next) => merged(so, next));
  return ranked.reduce((so, other) => withHistoryOf(so, other), leader);
}

function goesOnFrom(one: Version, other: Version): boolean {
  return one.has.has(other.tip) && !other.has.has(one.tip);
}

/** Versions that end alike differ in how much of their history they have. */
function onePerTip(versions: readonly Version[]): readonly Version[] {
  const byTip = new Map<string, Version>();
  for (const one of versions) {
    const known = byTip.get(one.tip);
    byTip.set(one.tip, known ? withHistoryOf(one, known) : one);
  }
  return [...byTip.values()];
}

/**
 * With the revisions of another version that this one has not got, before its own, as far as there is
 * room: so a chart that is full stays as it is.
 */
function withHistoryOf(version: Version, other: Version): Version {
  const { document } = version;
  const { earlier, revisions } = document;
  const lacking = last(
    [...other.contents].filter(([mark]) => !version.contents.has(mark)),
    MOST_REVISIONS - revisions.length,
  );
  const got = new Set(lacking.map(([mark]) => mark));
  const unknown = last(
    other.marks.filter((mark) => !version.has.has(mark) && !got.has(mark)),
    MOST_REVISIONS - earlier.length,
  );
  if (lacking.length === 0 && unknown.length === 0) return version;
  const own = version.marks.slice(0, earlier.length).filter((mark) => !got.has(mark));
  const more = lacking.map(([, revision]) => revision);
  return limited(document, [...unknown, ...own].map(digestIn), numbered(more, revisions));
}

function last<T>(list: readonly T[], most: number): readonly T[] {
  return list.slice(Math.max(0, list.length - Math.max(0, most)));
}

/** Two that went apart, and a revision that joins them. `later` stands where both changed a cell. */
function merged(earlier: Version, later: Version): Version {
  const [own, tip] = [lastRevision(earlier.document), lastRevision(later.document)];
  const bases = basesOf(earlier.document, later.document, earlier.marks, later.marks);
  const { state, conflicts } = mergeStates(bases, own, tip, () => 'theirs');
  const signature = { date: tip.date, author: tip.author, why: whyOf(conflicts.length) };
  const joint = { number: 1, ...signature, ...inOrder(stateOf(state)) };
  const joined = withJoint(earlier, later, joint);
  // Cell by cell it may become more than a chart can hold; the later version alone is not.
  return parseChart(joined.document)
    ? joined
    : withJoint(earlier, later, { ...joint, ...inOrder(stateOf(tip)) });
}

/** All revisions of one version, those of the other that it has not got, and a last one. */
function withJoint(one: Version, other: Version, joint: Revision): Version {
  const whole = withHistoryOf(one, { ...other, ...sharedWith(one, other) });
  const { earlier, revisions } = whole.document;
  const leftOut = other.marks
    .slice(0, other.document.earlier.length)
    .filter((mark) => !one.has.has(mark));
  const added = [...other.contents].filter(([mark]) => !one.has.has(mark)).map(([, of]) => of);
  const next = lastRevision(whole.document).number + 1;
  const after = [...added, joint].map((revision, n) => ({ ...revision, number: next + n }));
  return limited(whole.document, [...earlier, ...leftOut.map(digestIn)], [...revisions, ...after]);
}

/** What of the other's history is one's own as well. */
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

/** Revisions before those that have their numbers, which rise no further than they must. */
function numbered(more: readonly Revision[], revisions: readonly Revision[]): readonly Revision[] {
  if (more.length === 0) return revisions;
  const first = revisions[0]?.number ?? 1;
  const shift = Math.max(0, more.length + 1 - first);
  return [
    ...more.map((one, n) => ({ ...one, number: first + shift - more.length + n })),
    ...revisions.map((one) => (shift > 0 ? { ...one, number: one.number + shift } : one)),
  ];
}

/** Within what a chart can hold: the oldest revisions become digests, the oldest digests go. */
function limited(
  document: ChartDocument,
  earlier: readonly string[],
  revisions: readonly Revision[],
): Version {
  const [first = lastRevision(document), ...rest] = revisions;
  const whole = withinLimits({ ...document, earlier, revisions: [first, ...rest] });
  return versionOf({ ...whole, earlier: whole.earlier.slice(-MOST_REVISIONS) });
}
