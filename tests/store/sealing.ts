/** Logs that are sealed, and the disk they lie on. */

import 'fake-indexeddb/auto';
import {
  compareEvents,
  foldLog,
  type LogEvent,
  type LogState,
  type Sealable,
  sealable,
} from '../../src/scheduler/index.ts';
import { createStore, DEFAULT_SETTINGS, formatBackup, type Store } from '../../src/store/index.ts';
import { answer } from '../scheduler/making.ts';
import { plain } from '../scheduler/plain.ts';
import { rawAll, rawPut } from './raw.ts';

/** An answer a day, from study-day 100. */
export const answers = Array.from({ length: 20 }, (_, n) => answer(n, `p/${n % 3}`, 100 + n));
/** A study-day on which all of these may be sealed. */
export const LATE = 1000;

/**
 * A database of its own, which several tabs may open. Its name is random: this file is read again for
 * each file of tests, and they share one IndexedDB.
 */
export class Disk {
  readonly name = `sealed-${crypto.randomUUID()}`;

  open(device = 'a'): Store {
    return createStore({ name: this.name, newDeviceId: () => device });
  }

  async keysOf(storeName: string): Promise<readonly IDBValidKey[]> {
    return (await rawAll(this.name, storeName)).map(([key]) => key);
  }

  async idsInChunks(): Promise<readonly string[]> {
    const chunks = await rawAll(this.name, 'sealed');
    return chunks.flatMap(([, chunk]) => (chunk as LogEvent[]).map(({ id }) => id));
  }

  /** Of every event, as often as it is there. */
  async idsOnDisk(): Promise<readonly string[]> {
    return [...(await this.keysOf('events')).map(String), ...(await this.idsInChunks())].sort();
  }

  async contents() {
    return {
      events: await rawAll(this.name, 'events'),
      sealed: await rawAll(this.name, 'sealed'),
      documents: await rawAll(this.name, 'documents'),
    };
  }

  async spoilChunk(spoil: (records: readonly unknown[]) => unknown): Promise<void> {
    const [[key, chunk] = []] = await rawAll(this.name, 'sealed');
    await rawPut(this.name, 'sealed', spoil(chunk as unknown[]), key as never);
  }
}

/** A store on another device. */
export function elsewhere(): Store {
  return new Disk().open('c');
}

/** Writes events as they are, which only a backup does. */
export async function put(into: Store, events: readonly LogEvent[]): Promise<void> {
  const result = await into.importBackup(textOf(events));
  if (!result.ok) throw new Error(result.say);
}

export function textOf(events: readonly LogEvent[]): string {
  return formatBackup({ events, charts: [], settings: DEFAULT_SETTINGS, unread: [] }, '');
}

export async function backupOf(from: Store): Promise<string> {
  return (await from.exportBackup('2026-11-25T10:00:00Z')).text();
}

/** Seals what may be sealed on a study-day, however little it is. */
export async function sealTo(what: Store, today: number): Promise<boolean> {
  const { events, snapshot } = await what.load();
  const cut = sealable(foldLog(events, snapshot), today, 1);
  return cut ? what.seal(cut.snapshot, cut.sealed, snapshot?.events ?? 0) : false;
}

export function cutOf(log: LogState, today: number): Sealable {
  const cut = sealable(log, today, 1);
  if (!cut) throw new Error('there is nothing to seal');
  return cut;
}

type Shown = Omit<ReturnType<typeof plain>, 'events' | 'takenBack'> & {
  readonly again: readonly LogEvent[];
};

export async function stateOf(what: Store): Promise<Shown> {
  const { events, snapshot } = await what.load();
  return withoutSealed(foldLog(events, snapshot));
}

export function shown(events: readonly LogEvent[]): Shown {
  return withoutSealed(foldLog(events));
}

/** Of sealed events, a state has only those that screens show again. */
function withoutSealed(log: LogState): Shown {
  const { events: _, takenBack: __, ...state } = plain(log);
  const again = [...log.events].filter(({ type }) =>
    ['drilled', 'rehearsed', 'proved'].includes(type),
  );
  return { ...state, again };
}

export function inOrder(events: readonly LogEvent[]): readonly LogEvent[] {
  return [...events].sort(compareEvents);
}
