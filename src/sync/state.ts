/**
 * The data that a device stores about its folder. The device can recover all of it except the key, the
 * address, and the credentials.
 */

import * as v from 'valibot';
import type { Run } from './event-ids.ts';
import { type Header, LARGEST_HEADER, parseHeader } from './header.ts';
import { Refused } from './refused.ts';

/** What a file in the folder contained when this device wrote it or read it. */
export interface FileContents {
  readonly runs: readonly Run[];
  /** The id of each chart, and the digest of its version (segments.ts). */
  readonly charts: readonly (readonly [id: string, digest: string])[];
}

export interface SyncState {
  readonly version: 1;
  readonly address: string;
  readonly user: string;
  readonly password: string;
  readonly key: CryptoKey;
  readonly header: Header;
  /** This device's name in the folder, and the number of its next file. */
  readonly writer: string;
  readonly next: number;
  readonly files: Readonly<Record<string, FileContents>>;
  /**
   * The ids of the charts that were on this device at the last sync. If one is missing now, the player
   * has removed it since.
   */
  readonly known: readonly string[];
  /** The ids of charts that the player removed from this device. */
  readonly removed: readonly string[];
  /**
   * When the last successful sync ended, in milliseconds since 1970-01-01 UTC; null if there is none.
   */
  readonly worked: number | null;
  /** Why the last sync failed, in words for the player; null if it did not fail. */
  readonly failed: string | null;
  /** What the player should know about the last successful sync. */
  readonly notes: readonly string[];
}

const count = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const fileContents = v.object({
  runs: v.array(v.tuple([v.string(), count, count])),
  charts: v.array(v.tuple([v.string(), v.string()])),
});
const shape = v.object({
  version: v.literal(1),
  address: v.string(),
  user: v.string(),
  password: v.string(),
  key: v.unknown(),
  header: v.unknown(),
  writer: v.pipe(v.string(), v.regex(/^[a-z0-9]{10}$/)),
  next: count,
  files: v.fallback(v.record(v.string(), fileContents), {}),
  known: v.fallback(v.array(v.string()), []),
  removed: v.fallback(v.array(v.string()), []),
  worked: v.fallback(v.nullable(count), null),
  failed: v.fallback(v.nullable(v.string()), null),
  notes: v.fallback(v.array(v.string()), []),
});

/**
 * Reads the stored state. Returns null if no folder is connected, or if the state cannot be read; the
 * player then has to connect again.
 */
export function parseState(stored: unknown): SyncState | null {
  const result = v.safeParse(shape, stored);
  if (!result.success) return null;
  const { key, header, ...rest } = result.output;
  const known = headerIn(header);
  return key instanceof CryptoKey && known ? { ...rest, key, header: known } : null;
}

function headerIn(stored: unknown): Header | null {
  const text = JSON.stringify(stored) ?? '';
  if (text.length > LARGEST_HEADER) return null;
  try {
    return parseHeader(text);
  } catch (error) {
    if (error instanceof Refused) return null;
    throw error;
  }
}
