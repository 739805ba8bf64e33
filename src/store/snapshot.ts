/**
 * The stored snapshot: the state folded from the events in the sealed chunks. It is a cache; without
 * it, a page folds the whole log.
 */

import { recordOf } from './record.ts';

export const SNAPSHOT = 'snapshot';

/** How many events a chunk contains: few enough to read and write quickly. */
export const CHUNK = 2000;

export interface StoredSnapshot {
  /**
   * Goes up by one at each seal. If it has changed since it was read, another tab has sealed events.
   */
  readonly serial: number;
  /** The key of the last chunk in the snapshot. Pages read later chunks as recent events. */
  readonly upTo: number;
  /** The snapshot as stored. The scheduler decides whether it can be used. */
  readonly snapshot: unknown;
}

/** Stands for a snapshot that is missing or unreadable. It contains no events. */
export const NO_SNAPSHOT: StoredSnapshot = { serial: 0, upTo: 0, snapshot: null };

export function storedSnapshot(stored: unknown): StoredSnapshot {
  const { serial, upTo, snapshot } = recordOf(stored);
  if (!Number.isSafeInteger(serial) || !Number.isSafeInteger(upTo)) return NO_SNAPSHOT;
  return { serial: serial as number, upTo: upTo as number, snapshot };
}
