/** Unsaved changes to a chart, with undo and redo. */

import { canonical } from './digest.ts';
import { type ChartState, inOrder } from './document.ts';

export interface Draft {
  /** Earlier states, oldest first. */
  readonly past: readonly ChartState[];
  readonly now: ChartState;
  /** States that were undone, the next to redo first. */
  readonly future: readonly ChartState[];
  /**
   * The name of what the last edit changed. Consecutive edits with the same name are one undo step.
   */
  readonly run: string | null;
}

/** How many undo steps are kept. A state is 100 kB at most, and states share most of their data. */
export const MOST_STEPS = 200;

export function beginDraft(state: ChartState): Draft {
  return { past: [], now: state, future: [], run: null };
}

/**
 * Applies an edit and discards what was undone. Returns the same draft if the edit changes nothing.
 * @param run the name of what is edited, if consecutive edits of it are one step, such as typing a
 *   number or dragging a slider; else null
 */
export function edit(
  draft: Draft,
  change: (state: ChartState) => ChartState,
  run: string | null = null,
): Draft {
  const now = change(draft.now);
  if (isSameState(now, draft.now)) return draft;
  if (run === null || run !== draft.run)
    return { past: [...draft.past, draft.now].slice(-MOST_STEPS), now, future: [], run };
  const before = draft.past[draft.past.length - 1];
  // The value is back to what it was, so no step remains.
  if (before && isSameState(now, before))
    return { past: draft.past.slice(0, -1), now: before, future: [], run: null };
  return { ...draft, now, future: [] };
}

/** Makes the next edit a separate undo step. */
export function endRun(draft: Draft): Draft {
  return draft.run === null ? draft : { ...draft, run: null };
}

/** Returns the same draft if there is nothing to undo. */
export function undo(draft: Draft): Draft {
  const { past, now, future } = draft;
  const before = past[past.length - 1];
  if (!before) return draft;
  return { past: past.slice(0, -1), now: before, future: [now, ...future], run: null };
}

/** Returns the same draft if there is nothing to redo. */
export function redo(draft: Draft): Draft {
  const { past, now, future } = draft;
  const [next, ...rest] = future;
  if (!next) return draft;
  return { past: [...past, now], now: next, future: rest, run: null };
}

/** Returns whether two states are equal. The order of their entries does not matter. */
export function isSameState(a: ChartState, b: ChartState): boolean {
  return a === b || canonical(inOrder(a)) === canonical(inOrder(b));
}
