/** What differs between two states of a chart: in what they say, and in the numbers they print. */

import { type Cell, cellKey, cellsOf, inCellOrder, stateFrom } from './cells.ts';
import type { ChartState } from './document.ts';

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
