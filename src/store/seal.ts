/**
 * Seals old events: moves them from single records into chunks and stores a snapshot of the state
 * folded from them. One transaction does this. It changes nothing if the tab's snapshot is not the
 * one on the disk.
 */

import { type LogEvent, parseEvent, type Snapshot } from '../scheduler/index.ts';
import { type Database, promisifyRequest } from './database.ts';
import { readRecords, recordsOf } from './read-log.ts';
import { recordOf } from './record.ts';
import { CHUNK, SNAPSHOT, type StoredSnapshot, storedSnapshot } from './snapshot.ts';

export interface Sealing {
  readonly snapshot: Snapshot;
  /** The events in this snapshot that are not in the one it builds on, in the order of the log. */
  readonly sealed: readonly LogEvent[];
  /** The number of events in the snapshot that this one builds on; 0 if there is none. */
  readonly base: number;
  /** The serial of the stored snapshot that this tab saw last. */
  readonly serial: number;
}

/** @returns the new snapshot's serial; null if another tab was first, and then nothing changes */
export function seal(db: Database, sealing: Sealing): Promise<number | null> {
  return db.log('readwrite', async (events) => {
    const documents = db.documentsOf(events);
    const stored = storedSnapshot(await promisifyRequest<unknown>(documents.get(SNAPSHOT)));
    if (!isBuiltOn(stored, sealing)) return null;
    const recent = new Map(await readRecords(events));
    const wanted = new Set(sealing.sealed.map((event) => event.id));
    const chunks = db.sealedOf(events);
    const opened = await openChunks(chunks, sealing.base > 0 ? stored.upTo : 0, recent, wanted);
    const moved = sealing.sealed.filter((event) => !opened.covered.has(event.id));
    if (!moved.every((event) => recent.has(event.id))) return null;
    splitChunks(chunks, events, opened.splits);
    // Moves the records as they are stored, because they may have fields unknown to this version.
    const records = moved.map((event) => recent.get(event.id));
    for (let at = 0; at < records.length; at += CHUNK) chunks.add(records.slice(at, at + CHUNK));
    removeRuns(events, [...recent.keys()], new Set(moved.map((event) => event.id)));
    const upTo = Number((await promisifyRequest(chunks.getAllKeys())).at(-1) ?? 0);
    const serial = stored.serial + 1;
    const next: StoredSnapshot = { serial, upTo, snapshot: sealing.snapshot };
    await promisifyRequest(documents.put(next, SNAPSHOT));
    return serial;
  });
}

function isBuiltOn({ serial, snapshot }: StoredSnapshot, sealing: Sealing): boolean {
  if (serial !== sealing.serial) return false;
  return sealing.base === 0 || recordOf(snapshot).events === sealing.base;
}

/** A chunk that contains events that are not in the new snapshot. */
interface Split {
  readonly key: IDBValidKey;
  readonly stays: readonly unknown[];
  /** The records that become recent events again, with their ids. */
  readonly leaves: readonly (readonly [id: string, record: unknown])[];
}

/** Reads the chunks after a key, and finds which of their events are in the new snapshot. */
async function openChunks(
  chunks: IDBObjectStore,
  after: number,
  recent: ReadonlyMap<string, unknown>,
  wanted: ReadonlySet<string>,
): Promise<{ readonly covered: ReadonlySet<string>; readonly splits: readonly Split[] }> {
  const covered = new Set<string>();
  const splits: Split[] = [];
  for (const key of await promisifyRequest(
    chunks.getAllKeys(IDBKeyRange.lowerBound(after, true)),
  )) {
    const stays: unknown[] = [];
    const leaves: [string, unknown][] = [];
    const chunk = await promisifyRequest<unknown>(chunks.get(key));
    for (const [id, record] of recordsOf(chunk, key)) {
      const here = wanted.has(id) && !recent.has(id);
      if (here) covered.add(id);
      if (here || recent.has(id) || !parseEvent(record).ok) stays.push(record);
      else leaves.push([id, record]);
    }
    if (leaves.length > 0) splits.push({ key, stays, leaves });
  }
  return { covered, splits };
}

function splitChunks(
  chunks: IDBObjectStore,
  events: IDBObjectStore,
  splits: readonly Split[],
): void {
  for (const { key, stays, leaves } of splits) {
    chunks.delete(key);
    if (stays.length > 0) chunks.add(stays);
    for (const [id, record] of leaves) events.add(record, id);
  }
}

/** Removes records by ranges of keys. For a long log, one key at a time would take minutes. */
function removeRuns(
  events: IDBObjectStore,
  keys: readonly string[],
  moved: ReadonlySet<string>,
): void {
  for (let at = 0; at < keys.length; at++) {
    const from = at;
    while (moved.has(keys[at] ?? '')) at += 1;
    if (at > from) events.delete(IDBKeyRange.bound(keys[from], keys[at - 1]));
  }
}
