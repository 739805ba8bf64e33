import type { SyncStore } from '../store/index.ts';
import { unsent } from './plan.ts';
import { parseState } from './state.ts';

export interface Status {
  readonly address: string;
  readonly user: string;
  /**
   * When the last successful sync ended, in milliseconds since 1970-01-01 UTC; null if there is none.
   */
  readonly worked: number | null;
  /** Why the last sync failed, in words for the player; null if it did not fail. */
  readonly failed: string | null;
  readonly notes: readonly string[];
  /** How many events have not been sent yet. */
  readonly waiting: number;
}

/**
 * Returns the status as this device knows it, without contacting the server. Null if no folder is
 * connected.
 */
export async function statusOf(store: SyncStore): Promise<Status | null> {
  const state = parseState(await store.loadState());
  if (!state) return null;
  const { address, user, worked, failed, notes, files } = state;
  const { events } = await store.contents();
  const waiting = unsent(files, events, []).events.length;
  return { address, user, worked, failed, notes, waiting };
}
