/** What the store's own reading code makes of a log as it lies on a browser's disk. */

import { foldLog, type LogEvent, type LogState } from '../../src/scheduler/index.ts';
import { createStore, type Store } from '../../src/store/index.ts';
import { type Records, writeHere } from '../browser/database.ts';
import { plain } from '../scheduler/plain.ts';

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

export async function judge(raw: Records): Promise<Judgement> {
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

/** A store in this process over the same records. */
async function storeOf(records: Records): Promise<Store> {
  const name = `found-${++count}`;
  const store = createStore({ name, newDeviceId: () => 'harness' });
  // Opened once, so that the object stores are there.
  await store.load();
  await writeHere(name, records);
  return store;
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
