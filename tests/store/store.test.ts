import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import { compareEvents } from '../../src/scheduler/index.ts';
import { createStore, DEFAULT_SETTINGS, type Store } from '../../src/store/index.ts';
import { answerDraft } from './drafts.ts';
import { rawGet, rawPut } from './raw.ts';

let name = '';
let store: Store;
let count = 0;

beforeEach(() => {
  name = `test-${++count}`;
  store = open('a');
});

describe('the log on disk', () => {
  it('gives each event the next number of this device, and keeps it', async () => {
    const first = await store.append(answerDraft('p/1'));
    const second = await store.append(answerDraft('p/2'));
    expect([first.id, second.id]).toEqual(['a:0', 'a:1']);
    await store.close();
    const { events } = await open('b').load();
    expect(events).toEqual([first, second]);
  });

  it('never gives a number twice, though two tabs write at once', async () => {
    const other = open('b');
    const written = await Promise.all(
      Array.from({ length: 60 }, (_, n) => (n % 2 ? store : other).append(answerDraft(`p/${n}`))),
    );
    expect(new Set(written.map((event) => event.id)).size).toBe(60);
    expect(new Set(written.map((event) => event.device)).size).toBe(1);
    const { events } = await store.load();
    expect([...events].sort(compareEvents)).toHaveLength(60);
  });

  it('leaves unreadable records where they are, and counts them', async () => {
    await store.append(answerDraft('p/1'));
    await rawPut(name, 'events', { version: 7, id: 'z:1', type: 'from the future' }, 'z:1');
    await rawPut(name, 'events', 'not even an object', 'z:2');
    const contents = await store.load();
    expect(contents.events).toHaveLength(1);
    expect(contents.unread).toHaveLength(2);
    await store.append(answerDraft('p/2'));
    expect((await store.load()).unread).toHaveLength(2);
  });

  it('rejects if the disk refuses, and writes nothing', async () => {
    await store.append(answerDraft('p/1'));
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    await expect(store.append(answerDraft('p/2'))).rejects.toThrow('no room');
    IDBObjectStore.prototype.add = add;
    expect((await store.load()).events).toHaveLength(1);
    // The number is not used up, either: it belongs to the transaction that failed.
    expect((await store.append(answerDraft('p/3'))).id).toBe('a:1');
  });
});

describe('what cannot be read', () => {
  it('is not overwritten: a chart of a newer version', async () => {
    await store.load();
    const newer = { ...HARBOUR_LANE, version: 3, extra: 'precious' };
    await rawPut(name, 'documents', { [HARBOUR_LANE.id]: newer }, 'charts');
    await store.firstCharts([HARBOUR_LANE]);
    expect(await store.keepChart(HARBOUR_LANE, null, [])).toBeNull();
    expect(await rawGet(name, 'documents', 'charts')).toEqual({ [HARBOUR_LANE.id]: newer });
    expect((await store.load()).unreadDocuments).toBe(1);
  });

  it('is not overwritten: settings of a newer version', async () => {
    await store.load();
    await rawPut(name, 'documents', { version: 2, theme: 'tartan' }, 'settings');
    await expect(store.saveSettings({ theme: 'dark' })).rejects.toThrow('newer Throughline');
    expect(await rawGet(name, 'documents', 'settings')).toEqual({ version: 2, theme: 'tartan' });
    expect((await store.load()).unreadDocuments).toBe(1);
  });

  it('is not written: an event out of range', async () => {
    await expect(store.append({ ...answerDraft('p/1'), day: -1, at: -1000 })).rejects.toThrow(
      RangeError,
    );
    expect(await store.load()).toMatchObject({ events: [], unread: [] });
  });
});

describe('a plan that an older version kept', () => {
  it('disturbs nothing, and goes into no backup', async () => {
    await store.append(answerDraft('p/1'));
    await rawPut(name, 'documents', { version: 1, wish: 'x', reply: {} }, 'plan');
    const again = open('b');
    expect(await again.load()).toMatchObject({ events: [{ id: 'a:0' }], unreadDocuments: 0 });
    expect(await (await again.exportBackup('now')).text()).not.toContain('wish');
  });
});

describe('settings', () => {
  it('start at the defaults and keep changes', async () => {
    expect((await store.load()).settings).toEqual(DEFAULT_SETTINGS);
    await store.saveSettings({ newLinesADay: 12 });
    await store.saveSettings({ theme: 'dark' });
    expect((await store.load()).settings).toEqual({
      ...DEFAULT_SETTINGS,
      newLinesADay: 12,
      theme: 'dark',
    });
  });

  it('fall back field by field if a stored one does not fit', async () => {
    await store.load();
    await rawPut(
      name,
      'documents',
      { ...DEFAULT_SETTINGS, theme: 'tartan', newLinesADay: 12 },
      'settings',
    );
    const { settings } = await store.load();
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, newLinesADay: 12 });
  });
});

function open(device: string): Store {
  return createStore({ name, newDeviceId: () => device });
}
