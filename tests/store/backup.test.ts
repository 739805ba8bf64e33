import 'fake-indexeddb/auto';
import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import { HARBOUR_LANE, type Revision } from '../../src/charts/index.ts';
import { compareEvents, foldLog, type LogEvent } from '../../src/scheduler/index.ts';
import {
  createStore,
  DEFAULT_SETTINGS,
  formatBackup,
  parseBackup,
  type Store,
} from '../../src/store/index.ts';
import { historyArb } from '../scheduler/histories.ts';
import { answerDraft } from './drafts.ts';
import { rawPut } from './raw.ts';
import { backupOf } from './sealing.ts';

let name = '';
let store: Store;
let count = 0;

beforeEach(() => {
  name = `backup-${++count}`;
  store = createStore({ name, newDeviceId: () => 'a' });
});

describe('backups', () => {
  it('carry everything to an empty device', async () => {
    await fill(store);
    const other = elsewhere();
    const text = await backupOf(store);
    expect(await other.importBackup(text)).toEqual({ ok: true, added: 3, charts: 1 });
    expect(sorted(await other.load())).toEqual(sorted(await store.load()));
  });

  it('merge by union: the same state from either side, and each event once', async () => {
    await fill(store);
    const other = elsewhere();
    await other.append(answerDraft('q/1'));
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
    await other.append(answerDraft('q/1'));
    await other.saveSettings({ theme: 'light' });
    await other.importBackup(await backupOf(store));
    expect((await other.load()).settings.theme).toBe('light');
  });

  it('let the device continue after the highest number: no number is given twice', async () => {
    await fill(store);
    const text = await backupOf(store);
    await rawPut(name, 'documents', { id: 'a', next: 0 }, 'device');
    await store.importBackup(text);
    expect((await store.append(answerDraft('p/9'))).id).toBe('a:3');
  });

  it('bring a chart’s later revisions, but keep this device’s where both continued', async () => {
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

  // Found in review: an id that is a property of every object hid the chart.
  it('bring a chart, whatever its id is', async () => {
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

  it('of the first version restore events, and settings with defaults for new fields', async () => {
    const text = readFileSync('tests/store/fixtures/first-backup.json', 'utf8');
    expect(await store.importBackup(text)).toEqual({ ok: true, added: 3, charts: 0 });
    const { events, settings, unread } = await store.load();
    expect([...events].sort(compareEvents)).toEqual(JSON.parse(text).events);
    // The number of new lines was one for everyone, so it is no wish: settings.ts.
    expect(settings).toEqual({ ...DEFAULT_SETTINGS, theme: 'dark' });
    expect(unread).toEqual([]);
  });

  it('of the first version without new lines still bring none', async () => {
    const text = readFileSync('tests/store/fixtures/first-backup.json', 'utf8');
    const none = text.replace('"newLinesPerDay": 12', '"newLinesPerDay": 0');
    expect(await store.importBackup(none)).toMatchObject({ ok: true });
    expect((await store.load()).settings.newLinesADay).toBe(0);
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
    ['with a duplicate event', withEvents((events) => [...events, events[0]]), 'damaged'],
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
      'with settings that are a number',
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

function elsewhere(): Store {
  return createStore({ name: `${name}-elsewhere`, newDeviceId: () => 'b' });
}

async function fill(into: Store): Promise<void> {
  await into.append(answerDraft('p/1'));
  await into.append(answerDraft('p/2'));
  await into.append({ type: 'met', line: 'p', day: 20_000, at: 1_728_000_000_123 });
  await into.saveSettings({ units: 'cm' });
  await into.firstCharts([HARBOUR_LANE]);
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

function sorted<T extends { readonly events: readonly LogEvent[] }>(contents: T): T {
  return { ...contents, events: [...contents.events].sort(compareEvents) };
}
