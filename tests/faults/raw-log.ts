/** Reads a log from a browser's disk with the store's own code, and checks it. */

import { foldLog, type LogEvent, type LogState } from '../../src/scheduler/index.ts';
import { createStore, type Store } from '../../src/store/index.ts';
import { type Records, writeHere } from '../browser/database.ts';
import { plain } from '../scheduler/plain.ts';

/** The state of a log on the disk. */
export interface Judgement {
  /** Every event, as the store reads it. */
  readonly events: readonly LogEvent[];
  /** Ids that exist more than once, among recent events and chunks together. */
  readonly twice: readonly string[];
  readonly unread: number;
  /** Whether the snapshot with later events gives the same state as a fold of everything. */
  readonly foldsAlike: boolean;
  /** Chunks of sealed events. */
  readonly chunks: number;
}

export async function judge(raw: Records): Promise<Judgement> {
  const store = await storeOf(raw);
  const { events, snapshot, unread } = await store.load();
  const all = await store.loadAll();
  await store.close();
  const kept = JSON.stringify(stateOf(foldLog(events, snapshot)), canonical);
  const full = JSON.stringify(stateOf(foldLog(all)), canonical);
  return {
    events: all,
    twice: repeated(idsOnDisk(raw)),
    unread: unread.length,
    foldsAlike: kept === full,
    chunks: raw.sealed?.length ?? 0,
  };
}

/** A state from a snapshot has only those old events that screens show again. */
function stateOf(log: LogState) {
  const { events, takenBack: _, ...state } = plain(log);
  const again = events.filter(({ type }) => ['drilled', 'rehearsed', 'proved'].includes(type));
  return { ...state, again };
}

/** Ids of all stored events, with repeats. */
export function idsOnDisk(raw: Records): readonly string[] {
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

/** A store in this process with the same records. */
async function storeOf(records: Records): Promise<Store> {
  const name = `found-${++count}`;
  const store = createStore({ name, newDeviceId: () => 'harness' });
  // Opened once, to create the object stores.
  await store.load();
  await writeHere(name, records);
  return store;
}

/** To compare states: maps, sets and fields sorted by key. */
function canonical(_: string, value: unknown): unknown {
  if (value instanceof Map) return { $map: sorted([...value]) };
  if (value instanceof Set) return { $set: sorted([...value]) };
  if (typeof value !== 'object' || value === null || Array.isArray(value)) return value;
  return Object.fromEntries(sorted(Object.entries(value)));
}

function sorted<T>(list: readonly T[]): readonly T[] {
  return [...list].sort((one, other) => (String(one) < String(other) ? -1 : 1));
}
