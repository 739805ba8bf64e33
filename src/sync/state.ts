/** What a device keeps about its folder. All of it but the key and the address can be found out anew. */

import * as v from 'valibot';
import { type Header, LARGEST_HEADER, parseHeader } from './header.ts';
import type { Run } from './held.ts';
import { Refused } from './refused.ts';

/** What a file in the folder holds, as it was when it was written or read. */
export interface InFile {
  readonly runs: readonly Run[];
  /** Ids of charts, and the digest of the version of each. */
  readonly charts: readonly (readonly [id: string, digest: string])[];
}

export interface SyncState {
  readonly version: 1;
  readonly address: string;
  readonly user: string;
  readonly password: string;
  readonly key: CryptoKey;
  readonly header: Header;
  /** The name under which this device writes there, and the number of its next file. */
  readonly writer: string;
  readonly next: number;
  readonly files: Readonly<Record<string, InFile>>;
  /** Charts that were here at the last sync: one that is missing since was removed by the player. */
  readonly known: readonly string[];
  readonly removed: readonly string[];
  /** Milliseconds since 1970-01-01 UTC at which all was sent and taken in; null if never. */
  readonly worked: number | null;
  /** Why the last try failed, for the player; null if it did not. */
  readonly failed: string | null;
  /** What the player should know of the last one that worked. */
  readonly notes: readonly string[];
}

const count = v.pipe(v.number(), v.safeInteger(), v.minValue(0));
const inFile = v.object({
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
  files: v.fallback(v.record(v.string(), inFile), {}),
  known: v.fallback(v.array(v.string()), []),
  removed: v.fallback(v.array(v.string()), []),
  worked: v.fallback(v.nullable(count), null),
  failed: v.fallback(v.nullable(v.string()), null),
  notes: v.fallback(v.array(v.string()), []),
});

/** Null if nothing is set up, or what is stored cannot be read: then it is set up anew. */
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
