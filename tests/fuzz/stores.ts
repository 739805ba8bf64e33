/** Backups restored into a store with data, and stores with tampered records. */

import 'fake-indexeddb/auto';
import { createModel } from '../../src/app/state/model.ts';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import { createStore, type Store } from '../../src/store/index.ts';
import { noForecaster } from '../app/state/no-forecaster.ts';
import { rawAll, rawClear, rawPut } from '../store/raw.ts';
import { clean, same } from './laws.ts';
import {
  BACKUPS,
  CHART_DRAFTS,
  DOCUMENTS,
  EVENTS,
  FIRST_CHARTS,
  HISTORIES,
  PLAN,
  REHEARSALS,
  SETTINGS,
  SNAPSHOTS,
} from './seeds.ts';
import { law, refusedWith, type Target } from './target.ts';

const STORES = ['events', 'sealed', 'documents'] as const;

function storeNamed(name: string): Store {
  return createStore({ name, newDeviceId: () => 'fuzzed' });
}

const onDisk = (name: string) => Promise.all(STORES.map((store) => rawAll(name, store)));

async function emptied(name: string): Promise<void> {
  for (const store of STORES) await rawClear(name, store);
}

/** Like a player's device: two events and a chart of its own. */
async function begin(store: Store): Promise<void> {
  await store.firstCharts([HARBOUR_LANE]);
  // Its earlier events exist only in the backup.
  await rawPut('restoring', 'documents', { id: 'fuzzed', next: 500 }, 'device');
  await store.append({ type: 'met', line: 'p', day: 99, at: 99 * 86_400_000 });
  await store.append({ type: 'noted', line: 'p', text: 'mine', day: 99, at: 99 * 86_400_000 + 1 });
}

const restoring = storeNamed('restoring');

/** A refused backup changes nothing. An accepted one can be used and saved, and adds nothing twice. */
const restore: Target = {
  name: 'backup put into a store',
  form: 'json',
  share: 0.4,
  seeds: BACKUPS.map((text) => text.replaceAll('"b:', '"fuzzed:').replaceAll('"b"', '"fuzzed"')),
  take: async (text) => {
    await restoring.load();
    await emptied('restoring');
    await begin(restoring);
    const before = await onDisk('restoring');
    const imported = await restoring.importBackup(text as string);
    if (!imported.ok) {
      same(await onDisk('restoring'), before, 'refused, yet something changed');
      return refusedWith(imported.say);
    }
    await usable(restoring);
    const again = await restoring.importBackup(text as string);
    same(again, { ok: true, added: 0, charts: 0 }, 'something is added twice');
    const saved = await (await restoring.exportBackup('later')).text();
    const other = await restoring.importBackup(saved);
    same(other, { ok: true, added: 0, charts: 0 }, 'its own backup is incomplete');
    return 'taken';
  },
};

/** Does everything the app asks of a store when it opens and is used. */
async function usable(store: Store): Promise<void> {
  const { events, charts, settings } = await store.load();
  clean([charts, settings]);
  law((await store.loadAll()).length >= events.length, 'the whole log is shorter than its end');
  await store.loadDraft('harbour-lane');
  await store.loadRehearsal();
  const written = await store.append({ type: 'met', line: 'q', day: 100, at: 100 * 86_400_000 });
  law(
    (await store.loadAll()).some(({ id }) => id === written.id),
    'an answer is missing',
  );
  await (await store.exportBackup('now')).text();
}

const tampered = storeNamed('tampered');

/** The records by store and key. */
interface Disk {
  readonly events: Readonly<Record<string, unknown>>;
  readonly sealed: readonly unknown[];
  readonly documents: Readonly<Record<string, unknown>>;
}

function diskOf(n: number): Disk {
  const events = HISTORIES[n % HISTORIES.length] ?? [];
  const { stored } = (SNAPSHOTS[n % SNAPSHOTS.length] ?? {}) as { readonly stored?: unknown };
  return {
    events: Object.fromEntries(events.map((event) => [event.id, event])),
    sealed: [HISTORIES[(n + 1) % HISTORIES.length]],
    documents: {
      charts: { [HARBOUR_LANE.id]: DOCUMENTS[n], old: FIRST_CHARTS[0] },
      settings: SETTINGS[n % SETTINGS.length],
      'chart drafts': { [HARBOUR_LANE.id]: CHART_DRAFTS[n] },
      device: { id: 'fuzzed', next: 5 },
      snapshot: stored,
      plan: PLAN,
      rehearsal: REHEARSALS[0],
      'rehearsals over': ['x'],
    },
  };
}

const records: Target = {
  name: 'records on the disk',
  form: 'value',
  share: 0.3,
  seeds: [0, 1, 2, 3, 4, 5].map(diskOf),
  take: async (data) => {
    await tampered.load();
    await emptied('tampered');
    const disk = Object(data) as Partial<Record<(typeof STORES)[number], unknown>>;
    for (const store of STORES) {
      for (const [key, value] of Object.entries(Object(disk[store])).slice(0, 30)) {
        await rawPut('tampered', store, value, store === 'sealed' ? Number(key) || 1 : key);
      }
    }
    await usable(tampered);
    return 'taken' as const;
  },
};

const model = createModel({
  store: storeNamed('told'),
  clock: { now: () => 100 * 86_400_000, offsetMinutes: () => 0 },
  channel: { send: () => undefined },
  forecaster: noForecaster,
});
await model.open();

/** Messages from other tabs; only valid events enter the log. */
const messages: Target = {
  name: 'messages of other tabs',
  form: 'value',
  share: 1,
  seeds: [
    ...EVENTS.map((event) => ({ type: 'event', event })),
    { type: 'reload' },
    { type: 'rehearsal' },
  ],
  take: async (message) => {
    const before = model.log.peek().rawEvents.length;
    model.receive(message);
    if (model.log.peek().rawEvents.length > 200) await model.open();
    return model.log.peek().rawEvents.length > before ? 'taken' : 'refused';
  },
};

export const STORED: readonly Target[] = [restore, records, messages];
