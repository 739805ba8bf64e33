/** The stored snapshot, a fold of the sealed chunks. A cache: without it, pages fold the whole log. */

import { recordOf } from './record.ts';

export const SNAPSHOT = 'snapshot';

/** Events in a chunk: few enough to read and to write quickly. */
export const CHUNK = 2000;

export interface StoredSnapshot {
  /** Goes up by one at each seal. If it has changed since it was read, another tab has sealed. */
  readonly serial: number;
  /** Key of the last chunk that is folded in. Pages read later chunks as recent events. */
  readonly upTo: number;
  /** As stored; the scheduler decides whether it can be used. */
  readonly snapshot: unknown;
}

/** Stands for a snapshot that is missing or unreadable: nothing is folded in. */
export const NO_SNAPSHOT: StoredSnapshot = { serial: 0, upTo: 0, snapshot: null };

export function storedSnapshot(stored: unknown): StoredSnapshot {
  const { serial, upTo, snapshot } = recordOf(stored);
  if (!Number.isSafeInteger(serial) || !Number.isSafeInteger(upTo)) return NO_SNAPSHOT;
  return { serial: serial as number, upTo: upTo as number, snapshot };
}
