/** The stored snapshot: a fold of the sealed chunks. A cache: without it, everything is folded anew. */

import { recordOf } from './record.ts';

export const SNAPSHOT = 'snapshot';

/** Old events in one record; of this many they are quick to read and soon written. */
export const CHUNK = 2000;

export interface StoredSnapshot {
  /** Counts the sealings: another one means that another tab sealed meanwhile. */
  readonly serial: number;
  /** Key of the last chunk that is folded in. Later ones are read as recent events are. */
  readonly upTo: number;
  /** As it lies there: the scheduler says whether it can be used. */
  readonly snapshot: unknown;
}

/** If there is none, or none that can be read: nothing is folded in. */
export const NO_SNAPSHOT: StoredSnapshot = { serial: 0, upTo: 0, snapshot: null };

export function storedSnapshot(stored: unknown): StoredSnapshot {
  const { serial, upTo, snapshot } = recordOf(stored);
  if (!Number.isSafeInteger(serial) || !Number.isSafeInteger(upTo)) return NO_SNAPSHOT;
  return { serial: serial as number, upTo: upTo as number, snapshot };
}
