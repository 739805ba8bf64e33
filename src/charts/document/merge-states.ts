/** Three-way merge of chart states, cell by cell. */

import { type Cell, type Cells, cellKey, cellsOf, inCellOrder, stateFrom } from './cells.ts';
import type { ChartState } from './document.ts';

export const SIDES = ['mine', 'theirs'] as const;
export type Side = (typeof SIDES)[number];

/** A cell that both sides changed, each to another value; null where a side has not got it. */
export interface Conflict {
  /** Conflicts of one choice are settled together. */
  readonly choice: string;
  readonly mine: Cell | null;
  readonly theirs: Cell | null;
}

export interface MergedState {
  readonly state: ChartState;
  /** In the order of cells. */
  readonly conflicts: readonly Conflict[];
}

/**
 * What one side alone changed is as that side has it; what both changed alike is as both have it;
 * what each changed in its own way is a conflict, and as the chosen side has it.
 * @param bases states that both sides came from. There are two if each has merged the other once:
 *   a cell then follows the base that tells who changed it, and is a conflict if the two bases tell
 *   opposite things. With none every difference is a conflict.
 * @param choose for a conflict's `choice`
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
    state: stateFrom(taken(verdicts, sides, choose)),
    conflicts: conflicts.sort((a, b) => inCellOrder(cellIn(a), cellIn(b))),
  };
}

type Sides = Readonly<Record<Side, Cells>>;
/** Which side a cell is taken from. */
type Verdict = Side | { readonly choice: string };

function verdictsOf(bases: readonly Cells[], sides: Sides): Map<string, Verdict> {
  const keys = new Set([...sides.mine.keys(), ...sides.theirs.keys()]);
  return new Map([...keys].map((key) => [key, verdictOn(key, bases, sides)]));
}

function verdictOn(key: string, bases: readonly Cells[], { mine, theirs }: Sides): Verdict {
  const own = mine.get(key)?.value;
  const other = theirs.get(key)?.value;
  if (own === other) return 'mine';
  const told = new Set<Side>();
  for (const base of bases) {
    const before = base.get(key)?.value;
    if (before === own) told.add('theirs');
    else if (before === other) told.add('mine');
  }
  const [one, ...more] = told;
  if (one && more.length === 0) return one;
  return { choice: GROUPS.find(({ shares }) => shares(key))?.name ?? key };
}

/** Cells that make sense only together. */
interface Group {
  readonly name: string;
  readonly has: (key: string) => boolean;
  /** Its conflicts are always one choice. */
  readonly shares: (key: string) => boolean;
  readonly isSound: (cells: Cells) => boolean;
  /** What both outcomes of the choice must have in common. */
  readonly form: (cells: Cells) => unknown;
}

const names = (key: string) => key.startsWith('level name ');
const SPEED_KEYS = ['soft', 'medium', 'firm'].map((speed) => `condition ${speed}`);

const GROUPS: readonly Group[] = [
  {
    name: 'speeds',
    has: (key) => SPEED_KEYS.includes(key),
    shares: (key) => SPEED_KEYS.includes(key),
    // As a condition has to be (condition-schema.ts).
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
    has: (key) => names(key) || key.startsWith('level '),
    shares: names,
    isSound: (cells) => {
      const called = [...cells].filter(([key]) => names(key)).map(([, { value }]) => value);
      if (called.length === 0) return cells.size === 0;
      return called.length === 3 && new Set(called).size === 3;
    },
    form: (cells) => cells.size === 0,
  },
];

/**
 * If a group, merged cell by cell, would be no sound state, or would be there with one choice and
 * not with the other, the whole group is one side's.
 */
function settleTogether(group: Group, verdicts: Map<string, Verdict>, sides: Sides): void {
  const keys = [...verdicts.keys()].filter(group.has);
  const own = new Map(keys.map((key) => [key, verdicts.get(key) ?? 'mine']));
  const outcomes = SIDES.map((side) => keyed(taken(own, sides, () => side)));
  const [one, other] = outcomes.map(group.form);
  if (outcomes.every(group.isSound) && one === other) return;
  for (const key of keys) {
    const { mine, theirs } = pairOf(sides, key);
    if (mine?.value !== theirs?.value) verdicts.set(key, { choice: group.name });
  }
}

function taken(
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

/** Either side's value of the cell in conflict. */
export function cellIn({ mine, theirs }: Omit<Conflict, 'choice'>): Cell {
  const cell = mine ?? theirs;
  if (!cell) throw new Error('a conflict about nothing');
  return cell;
}
