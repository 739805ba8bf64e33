/**
 * Reads the log. A recent event is a record under its id. Older events are in sealed chunks. Chunks are
 * added and removed but never changed, and no event is both recent and in a chunk.
 */

import { type LogEvent, parseEvent } from '../scheduler/index.ts';
import type { UnreadRecord } from './backup.ts';
import { type Database, promisifyRequest } from './database.ts';
import { SNAPSHOT, type StoredSnapshot, storedSnapshot } from './snapshot.ts';

/** A stored record with its key. A record in a chunk has the key that it would have outside. */
export type Keyed = readonly [key: string, record: unknown];

/**
 * The longest event id, in characters. An id is a device's name and a number
 * (scheduler/log/event-schema.ts).
 */
const LONGEST = 48;

export interface ReadEvents {
  readonly events: readonly LogEvent[];
  readonly unread: readonly UnreadRecord[];
}

/**
 * Reads the recent events, and the events in chunks that come after the snapshot. Only a restored
 * backup adds such chunks.
 */
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
    const found = await promisifyRequest<unknown[]>(chunks.getAll(after));
    const inChunks = (await keys).flatMap((key, n) => recordsOf(found[n], key));
    return { records: [...(await recent), ...inChunks], stored };
  });
}

/** Returns the records of all recent events with their keys. */
export async function readRecords(events: IDBObjectStore): Promise<readonly Keyed[]> {
  const keys = promisifyRequest(events.getAllKeys());
  const records = await promisifyRequest<unknown[]>(events.getAll());
  return (await keys).map((key, n) => [String(key), records[n]]);
}

/** Returns the records of a chunk. A chunk that is not a list counts as one unreadable record. */
export function recordsOf(chunk: unknown, key: IDBValidKey): readonly Keyed[] {
  const records: readonly unknown[] = Array.isArray(chunk) ? chunk : [chunk];
  return records.map((record, n) => [idOf(record) ?? `sealed:${String(key)}:${n}`, record]);
}

/** Returns the id of a record, which is also its key, whether the event is recent or in a chunk. */
function idOf(record: unknown): string | null {
  const id = (record as { id?: unknown } | null | undefined)?.id;
  return typeof id === 'string' && id.length <= LONGEST ? id : null;
}

/** Adds one batch of the log's records. */
export type AddRecords = (records: readonly Keyed[]) => void;

/** Returns a collector that validates records and passes each event on once. */
export function validating(addEvents: (events: readonly LogEvent[]) => void): {
  readonly unread: readonly UnreadRecord[];
  readonly add: AddRecords;
} {
  const unread: UnreadRecord[] = [];
  const known = new Set<string>();
  const add: AddRecords = (records) => {
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
    addEvents(events);
  };
  return { unread, add };
}

export function collectEvents(): ReadEvents & { readonly add: AddRecords } {
  const events: LogEvent[] = [];
  const addEvents = (more: readonly LogEvent[]): void => {
    for (const event of more) events.push(event);
  };
  return { events, ...validating(addEvents) };
}
