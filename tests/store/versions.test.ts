import 'fake-indexeddb/auto';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import { createStore, DEFAULT_SETTINGS, OtherVersion, type Store } from '../../src/store/index.ts';
import { answer, base, said } from '../scheduler/making.ts';
import { rawAll } from './raw.ts';

let name = '';
let count = 0;
const opened: IDBDatabase[] = [];

beforeEach(() => {
  name = `versions-${++count}`;
});

afterEach(() => {
  vi.useRealTimers();
  for (const db of opened.splice(0)) db.close();
});

/** As version 1 of the app wrote them: each event by its id, and documents. */
const EVENTS = [
  answer(0, 'p/1', 100),
  answer(1, 'p/2', 101),
  said(base(2, 101), 'taken back', { answered: 'a:1' }),
  said(base(3, 102), 'met', { line: 'p' }),
];
const UNREADABLE = { version: 7, id: 'z:1', type: 'from the future' };

describe('a database of version 1', () => {
  it('opens with all its contents, and continues', async () => {
    (await version1()).close();
    const store = open();
    const contents = await store.load();
    expect(contents).toEqual({
      events: EVENTS,
      snapshot: null,
      unread: [{ key: 'z:1', record: UNREADABLE }],
      unreadDocuments: 0,
      charts: [HARBOUR_LANE],
      settings: { ...DEFAULT_SETTINGS, theme: 'dark' },
    });
    expect((await store.append({ type: 'met', line: 'q', day: 103, at: 1 })).id).toBe('a:4');
    expect(await rawAll(name, 'sealed')).toEqual([]);
  });

  it('opens as soon as a tab of that version closes its connection', async () => {
    const old = await version1();
    // What the app of version 1 does.
    old.onversionchange = () => old.close();
    expect((await open().load()).events).toEqual(EVENTS);
  });

  it('is reported in a sentence while a tab keeps its connection, and opens afterwards', async () => {
    const old = await version1();
    vi.useFakeTimers({ toFake: ['setTimeout', 'clearTimeout'] });
    const asked = new Promise<void>((resolve) => {
      old.onversionchange = () => resolve();
    });
    const store = open();
    const loaded = store.load().catch((error: unknown) => error);
    await asked;
    // The database reports that it is blocked after it has asked its tabs.
    await vi.waitFor(() => expect(vi.getTimerCount()).toBe(1));
    vi.runAllTimers();
    const error = await loaded;
    expect(error).toBeInstanceOf(OtherVersion);
    expect(String(error)).toContain('Close that tab');
    vi.useRealTimers();
    old.close();
    expect((await store.load()).events).toEqual(EVENTS);
    // The first attempt, which nobody waited for, does not block a later version.
    opened.push(await openRaw(name, 3));
  });
});

describe('a database of a later version', () => {
  it('closes the connection of an open tab, which then says what to do', async () => {
    const store = open();
    await store.load();
    opened.push(await openRaw(name, 3));
    const error = await store.load().catch((reason: unknown) => reason);
    expect(error).toBeInstanceOf(OtherVersion);
    expect(String(error)).toContain('Load this page again');
  });
});

function open(): Store {
  return createStore({ name, newDeviceId: () => 'b' });
}

/** A tab with a database as version 1 of the app made it. */
async function version1(): Promise<IDBDatabase> {
  const db = await openRaw(name, 1, (fresh) => {
    fresh.createObjectStore('events');
    fresh.createObjectStore('documents');
  });
  opened.push(db);
  const transaction = db.transaction(['events', 'documents'], 'readwrite');
  const events = transaction.objectStore('events');
  for (const event of EVENTS) events.put(event, event.id);
  events.put(UNREADABLE, UNREADABLE.id);
  const documents = transaction.objectStore('documents');
  documents.put({ id: 'a', next: 4 }, 'device');
  documents.put({ ...DEFAULT_SETTINGS, theme: 'dark' }, 'settings');
  documents.put({ [HARBOUR_LANE.id]: HARBOUR_LANE }, 'charts');
  await new Promise((resolve) => {
    transaction.oncomplete = resolve;
  });
  return db;
}

function openRaw(
  called: string,
  version: number,
  upgrade: (db: IDBDatabase) => void = () => undefined,
): Promise<IDBDatabase> {
  return new Promise((resolve, reject) => {
    const request = indexedDB.open(called, version);
    request.onupgradeneeded = () => upgrade(request.result);
    request.onerror = () => reject(request.error);
    request.onsuccess = () => resolve(request.result);
  });
}
