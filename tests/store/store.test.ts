import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { HARBOUR_LANE, type Revision } from '../../src/charts/index.ts';
import { compareEvents, type EventDraft, foldLog } from '../../src/scheduler/index.ts';
import {
  createStore,
  DEFAULT_SETTINGS,
  formatBackup,
  parseBackup,
  type Store,
} from '../../src/store/index.ts';
import { historyArb } from '../scheduler/histories.ts';
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
    const first = await store.append(draft('p/1'));
    const second = await store.append(draft('p/2'));
    expect([first.id, second.id]).toEqual(['a:0', 'a:1']);
    await store.close();
    const { events } = await open('b').load();
    expect(events).toEqual([first, second]);
  });

  it('never gives a number twice, though two tabs write at once', async () => {
    const other = open('b');
    const written = await Promise.all(
      Array.from({ length: 60 }, (_, n) => (n % 2 ? store : other).append(draft(`p/${n}`))),
    );
    expect(new Set(written.map((event) => event.id)).size).toBe(60);
    expect(new Set(written.map((event) => event.device)).size).toBe(1);
    const { events } = await store.load();
    expect([...events].sort(compareEvents)).toHaveLength(60);
  });

  it('leaves records it cannot read where they are, and says how many', async () => {
    await store.append(draft('p/1'));
    await rawPut(name, 'events', { version: 7, id: 'z:1', type: 'from the future' }, 'z:1');
    await rawPut(name, 'events', 'not even an object', 'z:2');
    const contents = await store.load();
    expect(contents.events).toHaveLength(1);
    expect(contents.unread).toHaveLength(2);
    await store.append(draft('p/2'));
    expect((await store.load()).unread).toHaveLength(2);
  });

  it('rejects when the disk refuses, and has written nothing', async () => {
    await store.append(draft('p/1'));
    const add = IDBObjectStore.prototype.add;
    IDBObjectStore.prototype.add = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    await expect(store.append(draft('p/2'))).rejects.toThrow('no room');
    IDBObjectStore.prototype.add = add;
    expect((await store.load()).events).toHaveLength(1);
    // The number was not used up either: it belongs to the transaction that failed.
    expect((await store.append(draft('p/3'))).id).toBe('a:1');
  });
});

describe('what cannot be read is not written over', () => {
  it('a chart of a newer version', async () => {
    await store.load();
    const newer = { ...HARBOUR_LANE, version: 3, extra: 'precious' };
    await rawPut(name, 'documents', { [HARBOUR_LANE.id]: newer }, 'charts');
    await store.firstCharts([HARBOUR_LANE]);
    expect(await store.keepChart(HARBOUR_LANE, null, [])).toBeNull();
    expect(await rawGet(name, 'documents', 'charts')).toEqual({ [HARBOUR_LANE.id]: newer });
    expect((await store.load()).unreadDocuments).toBe(1);
  });

  it('settings of a newer version', async () => {
    await store.load();
    await rawPut(name, 'documents', { version: 2, theme: 'tartan' }, 'settings');
    await expect(store.saveSettings({ theme: 'dark' })).rejects.toThrow('newer Throughline');
    expect(await rawGet(name, 'documents', 'settings')).toEqual({ version: 2, theme: 'tartan' });
    expect((await store.load()).unreadDocuments).toBe(1);
  });

  it('and an event that could not be read back is not written', async () => {
    await expect(store.append({ ...draft('p/1'), day: -1, at: -1000 })).rejects.toThrow(RangeError);
    expect(await store.load()).toMatchObject({ events: [], unread: [] });
  });
});

describe('settings', () => {
  it('start at the defaults and keep what was changed', async () => {
    expect((await store.load()).settings).toEqual(DEFAULT_SETTINGS);
    await store.saveSettings({ newLinesPerDay: 12 });
    await store.saveSettings({ theme: 'dark' });
    expect((await store.load()).settings).toEqual({
      ...DEFAULT_SETTINGS,
      newLinesPerDay: 12,
      theme: 'dark',
    });
  });

  it('fall back field by field when a stored one does not fit', async () => {
    await store.load();
    await rawPut(
      name,
      'documents',
      { ...DEFAULT_SETTINGS, theme: 'tartan', newLinesPerDay: 12 },
      'settings',
    );
    const { settings } = await store.load();
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, newLinesPerDay: 12 });
  });
});

describe('backups', () => {
  it('carry everything to an empty device', async () => {
    await fill(store);
    const other = elsewhere();
    const text = await backupOf(store);
    expect(await other.importBackup(text)).toEqual({ ok: true, added: 3, charts: 1 });
    expect(sorted(await other.load())).toEqual(sorted(await store.load()));
  });

  it('merge by union: the same state from either side, and once only', async () => {
    await fill(store);
    const other = elsewhere();
    await other.append(draft('q/1'));
    const here = await backupOf(store);
    const there = await backupOf(other);
    expect(await store.importBackup(there)).toEqual({ ok: true, added: 1, charts: 0 });
    expect(await other.importBackup(here)).toEqual({ ok: true, added: 3, charts: 1 });
    expect(await other.importBackup(here)).toEqual({ ok: true, added: 0, charts: 0 });
    expect(sorted(await other.load()).events).toEqual(sorted(await store.load()).events);
  });

  it('keep a device’s own settings when it has a history', async () => {
    await fill(store);
    const other = elsewhere();
    await other.append(draft('q/1'));
    await other.saveSettings({ theme: 'light' });
    await other.importBackup(await backupOf(store));
    expect((await other.load()).settings.theme).toBe('light');
  });

  it('go on counting behind what came back: no number is given twice', async () => {
    await fill(store);
    const text = await backupOf(store);
    await rawPut(name, 'documents', { id: 'a', next: 0 }, 'device');
    await store.importBackup(text);
    expect((await store.append(draft('p/9'))).id).toBe('a:3');
  });

  it('bring a chart’s later revisions, and keep one’s own where both went on', async () => {
    await store.firstCharts([{ ...HARBOUR_LANE, revisions: [HARBOUR_LANE.revisions[0]] }]);
    const other = elsewhere();
    await other.firstCharts([HARBOUR_LANE]);
    const text = await backupOf(other);
    expect(await store.importBackup(text)).toEqual({ ok: true, added: 0, charts: 1 });
    expect((await store.load()).charts).toEqual([HARBOUR_LANE]);
    const own = { ...HARBOUR_LANE.revisions[1], number: 2, why: 'our own' };
    const third = createStore({ name: `${name}-third`, newDeviceId: () => 'c' });
    await third.firstCharts([
      { ...HARBOUR_LANE, revisions: [HARBOUR_LANE.revisions[0], own as Revision] },
    ]);
    expect(await third.importBackup(text)).toEqual({ ok: true, added: 0, charts: 0 });
  });

  // A reviewer: an id that every object answers to hid the chart.
  it('bring a chart whatever it is called', async () => {
    const named = { ...HARBOUR_LANE, id: 'constructor' };
    const other = elsewhere();
    await other.firstCharts([named]);
    const text = await backupOf(other);
    expect(await store.importBackup(text)).toEqual({ ok: true, added: 0, charts: 1 });
    expect((await store.load()).charts).toEqual([named]);
  });

  it('carry records that this version cannot read, untouched', async () => {
    await fill(store);
    await rawPut(name, 'events', { version: 7, id: 'z:1', type: 'from the future' }, 'z:1');
    const other = elsewhere();
    await other.importBackup(await backupOf(store));
    expect((await other.load()).unread).toEqual((await store.load()).unread);
  });

  it('carry every type of event', async () => {
    await fc.assert(
      fc.asyncProperty(historyArb, async (events) => {
        const there = createStore({ name: `${name}-${++count}`, newDeviceId: () => 'c' });
        const text = formatBackup(
          { events, charts: [], settings: DEFAULT_SETTINGS, unread: [] },
          '',
        );
        expect(await there.importBackup(text)).toMatchObject({ ok: true, added: events.length });
        const back = parseBackup(await backupOf(there));
        if (!back.ok) throw new Error(back.say);
        expect(foldLog(back.backup.events)).toEqual(foldLog(events));
      }),
    );
  });

  it('of the first version restore: its events, and its settings with defaults for the rest', async () => {
    const text = readFileSync('tests/store/fixtures/first-backup.json', 'utf8');
    expect(await store.importBackup(text)).toEqual({ ok: true, added: 3, charts: 0 });
    const { events, settings, unread } = await store.load();
    expect([...events].sort(compareEvents)).toEqual(JSON.parse(text).events);
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, newLinesPerDay: 12, theme: 'dark' });
    expect(unread).toEqual([]);
  });

  const broken: readonly (readonly [string, (text: string) => string, string])[] = [
    ['cut off', (text) => text.slice(0, -20), 'not readable'],
    ['empty', () => '', 'not readable'],
    [
      'of another kind',
      () => JSON.stringify({ kind: 'shopping-list', version: 1 }),
      'not a backup',
    ],
    ['a list', () => '[1,2,3]', 'not a backup'],
    ['without a version', (text) => text.replace('"version":1,"made"', '"made"'), 'not a backup'],
    ['of a future version', (text) => text.replace('"version":1', '"version":2'), 'future version'],
    [
      'with an event of a future version',
      withEvent((event) => ({ ...event, version: 2 })),
      'future version',
    ],
    ['with a damaged event', withEvent((event) => ({ ...event, day: 'Tuesday' })), 'damaged'],
    ['with an event twice', withEvents((events) => [...events, events[0]]), 'damaged'],
    [
      'without its events',
      (text) => JSON.stringify({ ...JSON.parse(text), events: null }),
      'damaged',
    ],
    [
      'with a damaged chart',
      (text) => JSON.stringify({ ...JSON.parse(text), charts: [{}] }),
      'damaged',
    ],
    [
      'with settings that are none',
      (text) => JSON.stringify({ ...JSON.parse(text), settings: 42 }),
      'damaged',
    ],
    [
      'with settings of a future version',
      (text) => JSON.stringify({ ...JSON.parse(text), settings: { version: 9 } }),
      'future version',
    ],
    [
      'with a chart of a future version',
      (text) => JSON.stringify({ ...JSON.parse(text), charts: [{ ...HARBOUR_LANE, version: 3 }] }),
      'future version',
    ],
    ['that contradicts the log', withEvent((event) => ({ ...event, ms: 999_999 })), 'contradicts'],
  ];

  it.each(broken)(
    '%s are refused whole, with a sentence, and nothing changes',
    async (_name, spoil, code) => {
      await fill(store);
      const text = spoil(await backupOf(store));
      const before = await store.load();
      const result = await store.importBackup(text);
      if (result.ok) throw new Error('it should be refused');
      expect(result.code).toBe(code);
      expect(result.say).toMatch(/^That .*Nothing was changed\.$/);
      expect(await store.load()).toEqual(before);
    },
  );
});

function open(device: string): Store {
  return createStore({ name, newDeviceId: () => device });
}

function elsewhere(): Store {
  return createStore({ name: `${name}-elsewhere`, newDeviceId: () => 'b' });
}

async function backupOf(from: Store): Promise<string> {
  return (await from.exportBackup('2026-11-25T10:00:00Z')).text();
}

async function fill(into: Store): Promise<void> {
  await into.append(draft('p/1'));
  await into.append(draft('p/2'));
  await into.append({ type: 'met', line: 'p', day: 20_000, at: 1_728_000_000_123 });
  await into.saveSettings({ units: 'cm' });
  await into.firstCharts([HARBOUR_LANE]);
}

function draft(card: string): EventDraft {
  return {
    type: 'answered',
    card,
    kind: 'number',
    answer: [2.3],
    errors: [0.1],
    outcome: 'rattled',
    ms: 2100,
    day: 20_000,
    at: 1_728_000_000_000,
  };
}

function withEvent(change: (event: object) => object): (text: string) => string {
  return withEvents(([first, ...rest]) => [change(first as object), ...rest]);
}

function withEvents(change: (events: unknown[]) => unknown[]): (text: string) => string {
  return (text) => {
    const data = JSON.parse(text) as { events: unknown[] };
    return JSON.stringify({ ...data, events: change(data.events) });
  };
}

function sorted<T extends { events: readonly import('../../src/scheduler/index.ts').LogEvent[] }>(
  contents: T,
): T {
  return { ...contents, events: [...contents.events].sort(compareEvents) };
}
