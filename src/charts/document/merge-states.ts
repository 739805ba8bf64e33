/** Merges chart states cell by cell, with a common base (a three-way merge). */

import { type Cell, type Cells, cellKey, cellsOf, inCellOrder, stateFrom } from './cells.ts';
import type { ChartState } from './document.ts';

const SIDES = ['mine', 'theirs'] as const;
export type Side = (typeof SIDES)[number];

/**
 * A cell that the two sides changed to different values. A side that does not have the cell is
 * null.
 */
export interface Conflict {
  /**
   * The name of the choice that decides this conflict. Conflicts with the same choice are settled
   * together.
   */
  readonly choice: string;
  readonly mine: Cell | null;
  readonly theirs: Cell | null;
}

export interface MergedState {
  readonly state: ChartState;
  /** The conflicts, in cell order. */
  readonly conflicts: readonly Conflict[];
}

/** How conflicts are settled: all for one side, except for some choices. */
export interface Settling {
  readonly keep: Side;
  readonly except: ReadonlySet<string>;
}

/** Returns the side for which a conflict's choice is settled. */
export function sideOf({ keep, except }: Settling, choice: string): Side {
  return except.has(choice) ? (keep === 'mine' ? 'theirs' : 'mine') : keep;
}

/**
 * Merges two states. What only one side changed takes that side's value. What both sides changed to
 * the same value takes that value. What they changed to different values is a conflict and takes
 * the value of the chosen side.
 * @param bases the states from which both sides came. There are two if each side has merged the
 *   other once. A cell then follows the base that shows which side changed it, and it is a conflict
 *   if the bases disagree. Without a base every difference is a conflict.
 * @param choose returns the side for a conflict's `choice`
 */
export function mergeStates(
  bases: readonly ChartState[],
  mine: ChartState,
  theirs: ChartState,
  choose: (choice: string) => Side,
): MergedState {
  const sides = { mine: cellsOf(mine), theirs: cellsOf(theirs) };
  const verdicts = verdictsOf(bases.map(cellsOf), sides);
  for (const group of GROUPS) settleTogether(group, verdicts, sides);
  const conflicts = [...verdicts].flatMap(([key, verdict]): Conflict[] =>
    typeof verdict === 'string' ? [] : [{ choice: verdict.choice, ...pairOf(sides, key) }],
  );
  return {
    state: stateFrom(cellsBy(verdicts, sides, choose)),
    conflicts: conflicts.sort((a, b) => inCellOrder(cellIn(a), cellIn(b))),
  };
}

/**
 * Carries unsaved edits over to a newer revision. Where both changed a cell, the player's edit
 * wins, because the player is about to save it.
 */
export function carriedOver(base: ChartState, edited: ChartState, newer: ChartState): ChartState {
  return mergeStates([base], edited, newer, () => 'mine').state;
}

type Sides = Readonly<Record<Side, Cells>>;
/** The side that provides the cell, or the choice that decides it. */
type Verdict = Side | { readonly choice: string };

function verdictsOf(bases: readonly Cells[], sides: Sides): Map<string, Verdict> {
  const keys = new Set([...sides.mine.keys(), ...sides.theirs.keys()]);
  return new Map([...keys].map((key) => [key, verdictOn(key, bases, sides)]));
}

function verdictOn(key: string, bases: readonly Cells[], { mine, theirs }: Sides): Verdict {
  const own = mine.get(key)?.value;
  const other = theirs.get(key)?.value;
  if (own === other) return 'mine';
  const changed = new Set<Side>();
  for (const base of bases) {
    const before = base.get(key)?.value;
    if (before === own) changed.add('theirs');
    else if (before === other) changed.add('mine');
  }
  const [side] = changed;
  if (side && changed.size === 1) return side;
  return { choice: GROUPS.find(({ shares }) => shares(key))?.name ?? key };
}

/** A group of cells that are only valid together. */
interface Group {
  readonly name: string;
  readonly has: (key: string) => boolean;
  /** Returns whether a conflict about a cell always belongs to the group's one choice. */
  readonly shares: (key: string) => boolean;
  readonly isSound: (cells: Cells) => boolean;
  /** Returns what must be the same whichever side is chosen. */
  readonly form: (cells: Cells) => unknown;
}

const isName = (key: string) => key.startsWith('level name ');
const SPEED_KEYS = ['soft', 'medium', 'firm'].map((speed) => `condition ${speed}`);

const GROUPS: readonly Group[] = [
  {
    name: 'speeds',
    has: (key) => SPEED_KEYS.includes(key),
    shares: (key) => SPEED_KEYS.includes(key),
    // The same rule as in condition-schema.ts.
    isSound: (cells) => {
      const [soft, medium, firm] = SPEED_KEYS.map((key) => Number(cells.get(key)?.value));
      return soft !== undefined && medium !== undefined && firm !== undefined
        ? soft < medium && medium < firm
        : false;
    },
    form: () => null,
  },
  {
    name: 'levels',
    has: (key) => key.startsWith('level '),
    shares: isName,
    isSound: (cells) => {
      const names = [...cells].filter(([key]) => isName(key)).map(([, { value }]) => value);
      if (names.length === 0) return cells.size === 0;
      return names.length === 3 && new Set(names).size === 3;
    },
    form: (cells) => cells.size === 0,
  },
];

/**
 * Turns the whole group into one choice in two cases: if merging it cell by cell could give invalid
 * cells, or if the group would exist with one choice but not with the other.
 */
function settleTogether(group: Group, verdicts: Map<string, Verdict>, sides: Sides): void {
  const keys = [...verdicts.keys()].filter(group.has);
  const own = new Map(keys.map((key) => [key, verdicts.get(key) ?? 'mine']));
  const outcomes = SIDES.map((side) => keyed(cellsBy(own, sides, () => side)));
  const [one, other] = outcomes.map(group.form);
  if (outcomes.every(group.isSound) && one === other) return;
  for (const key of keys) {
    const { mine, theirs } = pairOf(sides, key);
    if (mine?.value !== theirs?.value) verdicts.set(key, { choice: group.name });
  }
}

function cellsBy(
  verdicts: ReadonlyMap<string, Verdict>,
  sides: Sides,
  choose: (choice: string) => Side,
): readonly Cell[] {
  return [...verdicts].flatMap(([key, verdict]) => {
    const side = typeof verdict === 'string' ? verdict : choose(verdict.choice);
    return sides[side].get(key) ?? [];
  });
}

function keyed(cells: readonly Cell[]): Cells {
  return new Map(cells.map((cell) => [cellKey(cell), cell]));
}

function pairOf({ mine, theirs }: Sides, key: string) {
  return { mine: mine.get(key) ?? null, theirs: theirs.get(key) ?? null };
}

/** Returns the cell in conflict, with the value of either side. */
export function cellIn({ mine, theirs }: Omit<Conflict, 'choice'>): Cell {
  const cell = mine ?? theirs;
  if (!cell) throw new Error('a conflict about nothing');
  return cell;
}
