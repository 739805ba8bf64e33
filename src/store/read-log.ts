/**
 * Reading the log: recent events, one record a key, and sealed chunks of older ones. A chunk is added
 * or taken away, and never changed; what is in a chunk is not among the recent ones.
 */

import { type LogEvent, parseEvent } from '../scheduler/index.ts';
import type { UnreadRecord } from './backup.ts';
import { type Database, promisifyRequest } from './database.ts';
import { SNAPSHOT, type StoredSnapshot, storedSnapshot } from './snapshot.ts';

/** A stored record, with the key that it has of its own or would have. */
export type Keyed = readonly [key: string, record: unknown];

/** A device and a number have no longer id (scheduler/event-schema.ts). */
const LONGEST = 48;

export interface ReadEvents {
  readonly events: readonly LogEvent[];
  readonly unread: readonly UnreadRecord[];
}

/** Recent events and what lies in chunks after the snapshot, which only a restored backup puts there. */
export async function readRecent(
  db: Database,
): Promise<{ readonly records: readonly Keyed[]; readonly stored: StoredSnapshot }> {
  return db.log('readonly', async (log) => {
    const document = promisifyRequest<unknown>(db.documentsOf(log).get(SNAPSHOT));
    const recent = readRecords(log);
    const stored = storedSnapshot(await document);
    const after = IDBKeyRange.lowerBound(stored.upTo, true);
    const chunks = db.sealedOf(log);
    const keys = promisifyRequest(chunks.getAllKeys(after));
    const loose = await promisifyRequest<unknown[]>(chunks.getAll(after));
    const inChunks = (await keys).flatMap((key, n) => recordsOf(loose[n], key));
    return { records: [...(await recent), ...inChunks], stored };
  });
}

/** Every record of the recent events by its key. */
export async function readRecords(events: IDBObjectStore): Promise<readonly Keyed[]> {
  const keys = promisifyRequest(events.getAllKeys());
  const records = await promisifyRequest<unknown[]>(events.getAll());
  return (await keys).map((key, n) => [String(key), records[n]]);
}

/** What is in a chunk. One that is no list is a record that cannot be read. */
export function recordsOf(chunk: unknown, key: IDBValidKey): readonly Keyed[] {
  const records: readonly unknown[] = Array.isArray(chunk) ? chunk : [chunk];
  return records.map((record, n) => [keyInChunk(record) ?? `sealed:${String(key)}:${n}`, record]);
}

/** An event's key is its id; so it has the same one wherever it lies. */
function keyInChunk(record: unknown): string | null {
  const id = (record as { id?: unknown } | null | undefined)?.id;
  return typeof id === 'string' && id.length <= LONGEST ? id : null;
}

/** Takes in records of the log, piece by piece. */
export type TakePiece = (records: readonly Keyed[]) => void;

/** Takes records in, each validated, and gives on each event once. */
export function validating(takeEvents: (events: readonly LogEvent[]) => void): {
  readonly unread: readonly UnreadRecord[];
  readonly take: TakePiece;
} {
  const unread: UnreadRecord[] = [];
  const known = new Set<string>();
  const take: TakePiece = (records) => {
    const events: LogEvent[] = [];
    for (const [key, record] of records) {
      const parsed = parseEvent(record);
      if (!parsed.ok) {
        unread.push({ key, record });
      } else if (!known.has(parsed.event.id)) {
        known.add(parsed.event.id);
        events.push(parsed.event);
      }
    }
    takeEvents(events);
  };
  return { unread, take };
}

export function eventReader(): ReadEvents & { readonly take: TakePiece } {
  const events: LogEvent[] = [];
  const takeEvents = (more: readonly LogEvent[]): void => {
    for (const event of more) events.push(event);
  };
  return { events, ...validating(takeEvents) };
}
