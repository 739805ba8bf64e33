/** Changes of a chart that are not saved yet, with the way back and forth. */

import { canonical } from './digest.ts';
import { type ChartState, inOrder } from './document.ts';

export interface Draft {
  /** Oldest first. */
  readonly past: readonly ChartState[];
  readonly now: ChartState;
  /** The next one first. */
  readonly future: readonly ChartState[];
  /** What the last edit was of; edits of the same thing one after the other are one step. */
  readonly run: string | null;
}

/** As many steps as can be taken back. A state is some 100 kB at most, and most of it is shared. */
export const MOST_STEPS = 200;

export function beginDraft(state: ChartState): Draft {
  return { past: [], now: state, future: [], run: null };
}

/**
 * The draft with another state; what was undone is forgotten. An edit that changes nothing is none.
 * @param run names what is edited, where its edits in a row are one step: a number that is typed, a
 *   slider that is drawn
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
  // Typed back to what it was: then there was no step.
  if (before && isSameState(now, before))
    return { past: draft.past.slice(0, -1), now: before, future: [], run: null };
  return { ...draft, now, future: [] };
}

/** The next edit is a step of its own, whatever it is of. */
export function endRun(draft: Draft): Draft {
  return draft.run === null ? draft : { ...draft, run: null };
}

/** The same draft if there is nothing to undo. */
export function undo(draft: Draft): Draft {
  const { past, now, future } = draft;
  const before = past[past.length - 1];
  if (!before) return draft;
  return { past: past.slice(0, -1), now: before, future: [now, ...future], run: null };
}

/** The same draft if nothing was undone. */
export function redo(draft: Draft): Draft {
  const { past, now, future } = draft;
  const [next, ...rest] = future;
  if (!next) return draft;
  return { past: [...past, now], now: next, future: rest, run: null };
}

/** Do two states say the same, in whatever order. */
export function isSameState(a: ChartState, b: ChartState): boolean {
  return a === b || canonical(inOrder(a)) === canonical(inOrder(b));
}
