import fc from 'fast-check';
import { beforeEach, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../src/scheduler/index.ts';
import { parseBackup, type Store } from '../../src/store/index.ts';
import { historyArb } from '../scheduler/histories.ts';
import { answer } from '../scheduler/making.ts';
import {
  answers,
  backupOf,
  Disk,
  elsewhere,
  LATE,
  put,
  sealTo,
  shown,
  stateOf,
  textOf,
} from './sealing.ts';

let disk: Disk;
let store: Store;

beforeEach(() => {
  disk = new Disk();
  store = disk.open();
});

describe('a backup of a sealed log', () => {
  it('has everything, in the format of any backup', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const text = await backupOf(store);
    expect(Object.keys(JSON.parse(text))).toEqual([
      'kind',
      'version',
      'made',
      'events',
      'charts',
      'settings',
      'unread',
    ]);
    const other = elsewhere();
    expect(await other.importBackup(text)).toMatchObject({ ok: true, added: 20 });
    expect(await stateOf(other)).toEqual(shown(answers));
  });

  it('carries any history to another device, sealed or not', async () => {
    await fc.assert(
      fc.asyncProperty(historyArb, fc.integer({ min: 98, max: 200 }), async (events, today) => {
        const one = elsewhere();
        await put(one, events);
        await sealTo(one, today);
        const other = elsewhere();
        await put(other, events.slice(0, 3));
        await sealTo(other, today);
        const added = Math.max(0, events.length - 3);
        expect(await other.importBackup(await backupOf(one))).toMatchObject({ ok: true, added });
        expect(await stateOf(other)).toEqual(shown(events));
        expect(await one.importBackup(await backupOf(other))).toMatchObject({ ok: true, added: 0 });
      }),
    );
  });

  it('has an empty list if the log is empty', async () => {
    expect(parseBackup(await backupOf(store))).toMatchObject({ ok: true, backup: { events: [] } });
  });

  it('is refused if it contradicts a sealed answer, and nothing changes', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const before = await disk.contents();
    const told = [{ ...answers[2], ms: 1 } as LogEvent, answer(0, 'p/1', 140, 'b')];
    expect(await store.importBackup(textOf(told))).toMatchObject({
      ok: false,
      code: 'contradicts',
    });
    expect(await disk.contents()).toEqual(before);
  });

  it('brings no settings to a device whose answers are all sealed', async () => {
    await store.saveSettings({ theme: 'dark' });
    await put(store, answers);
    await store.saveSettings({ theme: 'light' });
    await sealTo(store, LATE);
    await put(store, [answer(0, 'p/1', 140, 'b')]);
    expect((await store.load()).settings.theme).toBe('light');
  });
});

describe('a long backup', () => {
  const many = Array.from({ length: 2600 }, (_, n) => answer(n, `p/${n % 3}`, 100 + n / 100));
  const long = many.map((event) => ({ ...event, day: Math.floor(event.day) }));

  it('is stored in chunks, complete, and sealed where it lies', async () => {
    await put(store, long);
    expect(await disk.keysOf('events')).toEqual([]);
    expect(await stateOf(store)).toEqual(shown(long));
    expect(await sealTo(store, LATE)).toBe(true);
    expect((await disk.open().load()).snapshot).toMatchObject({ events: 2600 });
    expect(await disk.idsOnDisk()).toHaveLength(2600);
    expect(await stateOf(disk.open())).toEqual(shown(long));
  });

  it('has recent events if its last days must not be sealed yet', async () => {
    await put(store, long);
    expect(await sealTo(store, 125)).toBe(true);
    expect(await disk.keysOf('events')).toHaveLength(200);
    expect(await stateOf(disk.open())).toEqual(shown(long));
    expect(await disk.idsOnDisk()).toHaveLength(2600);
  });

  it('is read on top of the snapshot if it is newer', async () => {
    const old = answer(0, 'p/1', 50, 'b');
    await put(store, [old]);
    await sealTo(store, 60);
    await put(store, long);
    const { snapshot, events } = await store.load();
    expect(snapshot).toMatchObject({ events: 1 });
    expect(events).toHaveLength(2600);
    expect(await sealTo(store, 125)).toBe(true);
    expect((await disk.open().load()).snapshot).toMatchObject({ events: 2401 });
    expect(await stateOf(disk.open())).toEqual(shown([old, ...long]));
  });
});
