/** The log as it lies on a browser's disk, and what the store's own reading code makes of it. */

import type { Page } from 'playwright-core';
import { foldLog, type LogEvent, type LogState } from '../../src/scheduler/index.ts';
import { createStore, type Store } from '../../src/store/index.ts';
import { plain } from '../scheduler/plain.ts';

/** A file of the app's origin that is not the app: nothing is opened, mended or sealed by looking. */
export const BLANK = 'chart.schema.json';

/** The records of each object store with their keys. */
export type RawLog = Readonly<Record<string, readonly (readonly [key: IDBValidKey, unknown])[]>>;

/** From a page of the app's origin; null if there is no database yet. */
export async function readRaw(page: Page): Promise<RawLog | null> {
  const text = await page.evaluate(recordsAsText);
  return text === null ? null : (JSON.parse(text, revived) as RawLog);
}

/** What is wrong with what is on the disk: for a sound log, nothing. */
export interface Judgement {
  /** Every event, by the store's own reading. */
  readonly events: readonly LogEvent[];
  /** Ids that lie there more than once, among recent events and in chunks together. */
  readonly twice: readonly string[];
  readonly unread: number;
  /** Is the snapshot with what came after it the same state as a fold of everything. */
  readonly foldsAlike: boolean;
  /** Chunks of sealed events. */
  readonly chunks: number;
}

export async function judge(raw: RawLog): Promise<Judgement> {
  const store = await storeOf(raw);
  const { events, snapshot, unread } = await store.load();
  const all = await store.loadAll();
  await store.close();
  const kept = JSON.stringify(stateOf(foldLog(events, snapshot)), spelled);
  const anew = JSON.stringify(stateOf(foldLog(all)), spelled);
  return {
    events: all,
    twice: repeated(idsOnDisk(raw)),
    unread: unread.length,
    foldsAlike: kept === anew,
    chunks: raw.sealed?.length ?? 0,
  };
}

/** Of old events a state that goes on from a snapshot has only what screens show again. */
function stateOf(log: LogState) {
  const { events, takenBack: _, ...state } = plain(log);
  const again = events.filter(({ type }) => ['drilled', 'rehearsed', 'proved'].includes(type));
  return { ...state, again };
}

/** Ids of all records of events, wherever they lie, as often as they lie there. */
export function idsOnDisk(raw: RawLog): readonly string[] {
  const recent = (raw.events ?? []).map(([key]) => String(key));
  const sealed = (raw.sealed ?? []).flatMap(([, chunk]) =>
    (chunk as readonly LogEvent[]).map(({ id }) => id),
  );
  return [...recent, ...sealed];
}

function repeated(ids: readonly string[]): readonly string[] {
  const seen = new Set<string>();
  return ids.filter((id) => seen.size === seen.add(id).size);
}

let count = 0;

/** A store in this process over the same records. */
async function storeOf(raw: RawLog): Promise<Store> {
  const name = `found-${++count}`;
  const store = createStore({ name, newDeviceId: () => 'harness' });
  // Opened once, so that the object stores are there.
  await store.load();
  await new Promise<void>((resolve, reject) => {
    const opening = indexedDB.open(name);
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => {
      const db = opening.result;
      const writing = db.transaction(Object.keys(raw), 'readwrite');
      for (const [objects, records] of Object.entries(raw)) {
        for (const [key, value] of records) writing.objectStore(objects).put(value, key);
      }
      writing.onabort = () => reject(writing.error);
      writing.oncomplete = () => {
        db.close();
        resolve();
      };
    };
  });
  return store;
}

/** In the page: all records, in one transaction. Maps and sets are spelled out. */
async function recordsAsText(): Promise<string | null> {
  // Opening one that is not there would make an empty one, which the app could not use.
  const names = (await indexedDB.databases()).map(({ name }) => name);
  if (!names.includes('throughline')) return null;
  const db = await new Promise<IDBDatabase>((resolve, reject) => {
    const opening = indexedDB.open('throughline');
    opening.onerror = () => reject(opening.error);
    opening.onsuccess = () => resolve(opening.result);
  });
  const stores = [...db.objectStoreNames];
  const reading = db.transaction(stores);
  const parts = stores.map((name) => {
    const objects = reading.objectStore(name);
    return { name, keys: objects.getAllKeys(), values: objects.getAll() };
  });
  await new Promise<void>((resolve, reject) => {
    reading.oncomplete = () => resolve();
    reading.onabort = () => reject(reading.error);
  });
  db.close();
  const raw = Object.fromEntries(
    parts.map(({ name, keys, values }) => [
      name,
      keys.result.map((key, n) => [key, values.result[n]]),
    ]),
  );
  return JSON.stringify(raw, (_, value: unknown) => {
    if (value instanceof Map) return { $map: [...value] };
    if (value instanceof Set) return { $set: [...value] };
    return value;
  });
}

function revived(_: string, value: unknown): unknown {
  const { $map, $set } = (value ?? {}) as { $map?: [unknown, unknown][]; $set?: unknown[] };
  if ($map) return new Map($map);
  if ($set) return new Set($set);
  return value;
}

/** For comparing: maps and sets in the order of their keys, fields in the order of their names. */
function spelled(_: string, value: unknown): unknown {
  if (value instanceof Map) return { $map: sorted([...value]) };
  if (value instanceof Set) return { $set: sorted([...value]) };
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(sorted(Object.entries(value)));
}

function sorted<T>(list: readonly T[]): readonly T[] {
  return [...list].sort((one, other) => (String(one) < String(other) ? -1 : 1));
}
