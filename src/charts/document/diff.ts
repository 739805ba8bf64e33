/** Finds what differs between two states of a chart. */

import { type Cell, cellKey, cellsOf, inCellOrder, stateFrom } from './cells.ts';
import type { ChartState } from './document.ts';

/** A cell with two different values in the two states, or a cell that only one state has. */
export type Change =
  | { readonly from: Cell; readonly to: Cell }
  | { readonly from: null; readonly to: Cell }
  | { readonly from: Cell; readonly to: null };

/**
 * Returns the cell that changes: with its new value, or with its old one if the cell is removed.
 */
export function changedCell(change: Change): Cell {
  return change.to ?? change.from;
}

/** Returns the changes that turn one state into the other, in cell order. */
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

/**
 * Applies changes to a state. Does not check that the state has the values from which the changes
 * start.
 */
export function applyDiff(state: ChartState, changes: readonly Change[]): ChartState {
  const cells = new Map(cellsOf(state));
  for (const change of changes) {
    const key = cellKey(changedCell(change));
    if (change.to) cells.set(key, change.to);
    else cells.delete(key);
  }
  return stateFrom(cells.values());
}
