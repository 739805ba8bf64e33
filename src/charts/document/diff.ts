/** What differs between two states of a chart. */

import { type Cell, cellKey, cellsOf, inCellOrder, stateFrom } from './cells.ts';
import type { ChartState } from './document.ts';

/** A cell whose value differs, or that only one of the states has. */
export type Change =
  | { readonly from: Cell; readonly to: Cell }
  | { readonly from: null; readonly to: Cell }
  | { readonly from: Cell; readonly to: null };

/** The cell that changes, with its new value, or its old one if it goes. */
export function changedCell(change: Change): Cell {
  return change.to ?? change.from;
}

/** The changes that turn one state into the other, in cell order. */
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

/** Applies changes to a state. The values that they started from are not compared. */
export function applyDiff(state: ChartState, changes: readonly Change[]): ChartState {
  const cells = new Map(cellsOf(state));
  for (const change of changes) {
    const key = cellKey(changedCell(change));
    if (change.to) cells.set(key, change.to);
    else cells.delete(key);
  }
  return stateFrom(cells.values());
}
