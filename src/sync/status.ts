import type { SyncStore } from '../store/index.ts';
import { unsent } from './plan.ts';
import { parseState } from './state.ts';

export interface Status {
  readonly address: string;
  readonly user: string;
  /** Milliseconds since 1970-01-01 UTC of the last sync that worked; null if none did. */
  readonly worked: number | null;
  /** Why the last sync failed, for the player; null if it did not. */
  readonly failed: string | null;
  readonly notes: readonly string[];
  /** Events that are still to be sent. */
  readonly waiting: number;
}

/** By what this device knows, without asking the folder; null if none is connected. */
export async function statusOf(store: SyncStore): Promise<Status | null> {
  const state = parseState(await store.loadState());
  if (!state) return null;
  const { address, user, worked, failed, notes, files } = state;
  const { events } = await store.contents();
  const waiting = unsent(files, events, []).events.length;
  return { address, user, worked, failed, notes, waiting };
}
