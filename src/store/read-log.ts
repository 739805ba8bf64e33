/**
 * Reading the log: recent events, one record a key, and sealed chunks of older ones. A chunk is added
 * or taken away, and never changed; what is in a chunk is not among the recent ones.
 */

import { type LogEvent, parseEvent } from '../scheduler/index.ts';
import type { UnreadRecord } from './backup.ts';
import { type Database, promisifyRequest } from './database.ts';
import { CHUNK, SNAPSHOT, type StoredSnapshot, storedSnapshot } from './snapshot.ts';

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

/** Takes in the pieces of the whole log, one after the other. */
export type TakePiece = (records: readonly Keyed[]) => void;

/**
 * Reads the whole log in pieces, so that no write waits until all of it is read, and no more of it
 * than a piece is in memory twice. It begins anew if a chunk was taken away meanwhile.
 * @param begin gives what takes in the pieces, afresh each time
 * @returns what was begun last, and the snapshot that was there when it began
 */
export async function readWhole<T extends { readonly take: TakePiece }>(
  db: Database,
  begin: () => T,
): Promise<T & { readonly stored: StoredSnapshot }> {
  for (;;) {
    const taker = begin();
    const { recent, chunks, stored } = await db.log('readonly', async (log) => {
      const document = promisifyRequest<unknown>(db.documentsOf(log).get(SNAPSHOT));
      const keys = promisifyRequest(db.sealedOf(log).getAllKeys());
      const records = await readRecords(log);
      return { recent: records, chunks: await keys, stored: storedSnapshot(await document) };
    });
    for (let at = 0; at < recent.length; at += CHUNK) taker.take(recent.slice(at, at + CHUNK));
    if (await takeChunks(db, chunks, taker.take)) return { ...taker, stored };
  }
}

/** False as soon as one is missing. */
async function takeChunks(
  db: Database,
  keys: readonly IDBValidKey[],
  take: TakePiece,
): Promise<boolean> {
  for (const key of keys) {
    const chunk = await db.sealed<unknown>('readonly', (chunks) =>
      promisifyRequest(chunks.get(key)),
    );
    if (chunk === undefined) return false;
    take(recordsOf(chunk, key));
  }
  return true;
}

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
