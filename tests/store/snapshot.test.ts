import { beforeEach, describe, expect, it } from 'vitest';
import type { LogEvent } from '../../src/scheduler/index.ts';
import type { Store } from '../../src/store/index.ts';
import { answer, base, said } from '../scheduler/making.ts';
import { rawAll, rawGet, rawPut } from './raw.ts';
import {
  answers,
  backupOf,
  Disk,
  elsewhere,
  inOrder,
  LATE,
  put,
  sealTo,
  shown,
  stateOf,
} from './sealing.ts';

let disk: Disk;
let store: Store;

beforeEach(() => {
  disk = new Disk();
  store = disk.open();
});

describe('a snapshot is a cache', () => {
  const spoilt: readonly (readonly [string, (stored: object) => unknown])[] = [
    ['that is missing', () => undefined],
    ['that is nonsense', () => 'nonsense'],
    ['without its place', ({ upTo: _, ...stored }: { upTo?: number }) => stored],
    ['of another version', withSnapshot((old) => ({ ...old, version: 99 }))],
    ['that is null', withSnapshot(() => null)],
    ['with a part missing', withSnapshot(({ fold: _, ...old }: { fold?: unknown }) => old)],
  ];

  it.each(spoilt)('%s: the whole log is folded, and sealed again', async (_name, spoil) => {
    await put(store, answers);
    await sealTo(store, 110);
    const stored = (await rawGet(disk.name, 'documents', 'snapshot')) as object;
    await rawPut(disk.name, 'documents', spoil(stored), 'snapshot');
    const other = disk.open();
    expect((await other.load()).snapshot).toBeNull();
    expect(await stateOf(other)).toEqual(shown(answers));
    expect(await sealTo(other, 115)).toBe(true);
    expect((await disk.open().load()).snapshot).toMatchObject({ events: 14 });
    expect(await stateOf(disk.open())).toEqual(shown(answers));
    expect(await disk.idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
  });

  it('that covers less the second time: the other events are recent again', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    await rawPut(disk.name, 'documents', undefined, 'snapshot');
    const other = disk.open();
    expect(await sealTo(other, 108)).toBe(true);
    expect(await disk.keysOf('events')).toHaveLength(13);
    expect((await disk.open().load()).snapshot).toMatchObject({ events: 7 });
    expect(await stateOf(disk.open())).toEqual(shown(answers));
    expect(await disk.idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
  });

  it('is not continued after a backup brought older events, and is made again', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const older = answer(0, 'p/1', 50, 'b');
    await put(store, [older]);
    const all = [...answers, older];
    expect((await store.load()).snapshot).toBeNull();
    expect(await stateOf(store)).toEqual(shown(all));
    expect(await sealTo(store, 115)).toBe(true);
    expect((await disk.open().load()).snapshot).toMatchObject({ events: 15 });
    expect(await stateOf(disk.open())).toEqual(shown(all));
  });

  it('is not continued after a sealed answer was taken back', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const back = said(base(30, 130), 'taken back', { answered: 'a:2' });
    await put(store, [back]);
    expect(await stateOf(disk.open())).toEqual(shown([...answers, back]));
  });
});

describe('a damaged record in a chunk', () => {
  const damaged = { ...answers[3], day: 'Tuesday' };

  beforeEach(async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    await disk.spoilChunk((records) =>
      records.map((record) => ((record as LogEvent).id === 'a:3' ? damaged : record)),
    );
    await rawPut(disk.name, 'documents', undefined, 'snapshot');
  });

  it('is counted and kept; the others are read', async () => {
    const { events, unread } = await store.load();
    expect(events).toHaveLength(19);
    expect(unread).toEqual([{ key: 'a:3', record: damaged }]);
    await sealTo(store, LATE);
    const [[, chunk] = []] = await rawAll(disk.name, 'sealed');
    expect(chunk).toContainEqual(damaged);
    expect(await store.loadAll()).toHaveLength(19);
  });

  it('is kept when its chunk is split', async () => {
    await sealTo(store, 110);
    await rawPut(disk.name, 'documents', undefined, 'snapshot');
    expect((await disk.open().load()).unread).toEqual([{ key: 'a:3', record: damaged }]);
  });

  it('goes into a backup, and comes back once', async () => {
    const text = await backupOf(store);
    const other = elsewhere();
    expect(await other.importBackup(text)).toMatchObject({ ok: true, added: 19 });
    expect((await other.load()).unread).toEqual([{ key: 'a:3', record: damaged }]);
    expect(await store.importBackup(text)).toMatchObject({ ok: true, added: 0 });
    expect((await store.load()).unread).toHaveLength(1);
    expect(await other.importBackup(await backupOf(store))).toMatchObject({ added: 0 });
  });

  it('gets its answer back from an earlier backup', async () => {
    await put(store, answers);
    expect(inOrder((await store.load()).events)).toEqual(answers);
    expect(await sealTo(store, LATE)).toBe(true);
    expect(inOrder(await disk.open().loadAll())).toEqual(answers);
    expect(await stateOf(disk.open())).toEqual(shown(answers));
    // On another device the answer replaces it.
    const other = elsewhere();
    expect(await other.importBackup(await backupOf(store))).toMatchObject({ ok: true, added: 20 });
    expect((await other.load()).unread).toEqual([]);
  });

  it('loses nothing else, not even if the chunk is no list', async () => {
    await disk.spoilChunk(() => 'nonsense');
    const { events, unread } = await store.load();
    expect(events).toEqual([]);
    expect(unread.map(({ record }) => record)).toEqual(['nonsense']);
    await put(store, answers);
    expect(await stateOf(store)).toEqual(shown(answers));
  });
});

function withSnapshot(change: (old: object) => unknown): (stored: object) => unknown {
  return (stored) => ({ ...stored, snapshot: change((stored as { snapshot: object }).snapshot) });
}
