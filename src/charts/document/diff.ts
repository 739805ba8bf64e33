/** What differs between two states of a chart: in what they say, and in the numbers they print. */

import { SPEEDS, type Speed } from '../../table/index.ts';
import type { Chart, Line } from '../numbers/chart.ts';
import { type Cell, cellKey, cellsOf, inCellOrder, stateFrom } from './cells.ts';
import { type Decimal, minus } from './decimal.ts';
import { type ChartState, type LinePlace, placeKey } from './document.ts';
import { PATTERNS } from './patterns.ts';

/** A cell of both states with two values, or of one of them only. */
export type Change =
  | { readonly from: Cell; readonly to: Cell }
  | { readonly from: null; readonly to: Cell }
  | { readonly from: Cell; readonly to: null };

/** The cell that changes, with the value it has in the one state or the other. */
export function changedCell(change: Change): Cell {
  return change.to ?? change.from;
}

/** What turns one state into the other, in the order of cells. */
export function diffStates(before: ChartState, after: ChartState): readonly Change[] {
  const old = cellsOf(before);
  const now = cellsOf(after);
  const gone = [...old].filter(([key]) => !now.has(key));
  const changes: Change[] = gone.map(([, from]) => ({ from, to: null }));
  for (const [key, to] of now) {
    const from = old.get(key) ?? null;
    if (from === null) changes.push({ from, to });
    else if (from.value !== to.value) changes.push({ from, to });
  }
  return changes.sort((a, b) => inCellOrder(changedCell(a), changedCell(b)));
}

/** A state with the changes made; what they were made from is not looked at. */
export function applyDiff(state: ChartState, changes: readonly Change[]): ChartState {
  const cells = new Map(cellsOf(state));
  for (const change of changes) {
    const key = cellKey(changedCell(change));
    if (change.to) cells.set(key, change.to);
    else cells.delete(key);
  }
  return stateFrom(cells.values());
}

/** A line whose printed numbers differ, or that one of the charts has not. */
export interface LineChange extends LinePlace {
  /** Null if the line comes. */
  readonly from: Line | null;
  /** Null if it goes. */
  readonly to: Line | null;
  /** By how much each printed number moves; null if the line comes or goes. */
  readonly by: Readonly<Record<Speed, Decimal>> | null;
}

const ORDER: readonly string[] = PATTERNS.map(({ id }) => id);

/**
 * The lines with a printed number that differs, by pattern and start.
 * @throws if the charts name their numbers in two ways: such numbers cannot be compared
 */
export function changedLines(before: Chart, after: Chart): readonly LineChange[] {
  if (before.naming !== after.naming)
    throw new Error(`numbers ${before.naming} and ${after.naming} are two things`);
  const old = new Map(before.lines.map((line) => [placeKey(line), line]));
  const now = new Map(after.lines.map((line) => [placeKey(line), line]));
  const places = new Map([...old, ...now]);
  return [...places]
    .map(([key, { pattern, start }]): LineChange => {
      const from = old.get(key) ?? null;
      const to = now.get(key) ?? null;
      return { pattern, start, from, to, by: from && to && shifts(from, to) };
    })
    .filter(({ by }) => by === null || SPEEDS.some((speed) => by[speed] !== 0))
    .sort((a, b) => ORDER.indexOf(a.pattern) - ORDER.indexOf(b.pattern) || a.start - b.start);
}

function shifts(from: Line, to: Line): Readonly<Record<Speed, Decimal>> {
  const by = (speed: Speed) => minus(to.numbers[speed].printed, from.numbers[speed].printed);
  return { soft: by('soft'), medium: by('medium'), firm: by('firm') };
}
