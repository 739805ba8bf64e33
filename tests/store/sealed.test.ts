import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { foldLog } from '../../src/scheduler/index.ts';
import { parseBackup, type Store } from '../../src/store/index.ts';
import { historyArb } from '../scheduler/histories.ts';
import { answer } from '../scheduler/making.ts';
import { rawAll, rawPut } from './raw.ts';
import {
  answers,
  backupOf,
  cutOf,
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

afterEach(() => {
  vi.restoreAllMocks();
});

describe('a sealed log', () => {
  it('folds to the same state as all its events, wherever it was cut', async () => {
    let sealings = 0;
    const cutArb = fc.array(fc.tuple(fc.nat(16), fc.integer({ min: 98, max: 200 })), {
      maxLength: 4,
    });
    await fc.assert(
      fc.asyncProperty(historyArb, cutArb, async (events, cuts) => {
        const one = elsewhere();
        let written = 0;
        for (const [more, today] of cuts) {
          await put(one, events.slice(written, written + more));
          written += more;
          if (await sealTo(one, today)) sealings += 1;
        }
        await put(one, events.slice(written));
        expect(await stateOf(one)).toEqual(shown(events));
        expect(inOrder(await one.loadAll())).toEqual(inOrder(events));
      }),
      { numRuns: 300 },
    );
    expect(sealings).toBeGreaterThan(100);
  });

  it('opens by its snapshot and the events after it', async () => {
    await put(store, answers);
    expect(await sealTo(store, 115)).toBe(true);
    const { events, snapshot, unread } = await disk.open().load();
    expect(snapshot).toMatchObject({ events: 14, before: 114 });
    expect(inOrder(events)).toEqual(answers.slice(14));
    expect(unread).toEqual([]);
    expect(await disk.keysOf('events')).toHaveLength(6);
    expect(await disk.idsInChunks()).toHaveLength(14);
  });

  it('is sealed again on top of what was sealed', async () => {
    await put(store, answers);
    expect(await sealTo(store, 110)).toBe(true);
    expect(await sealTo(store, 118)).toBe(true);
    expect((await store.load()).snapshot).toMatchObject({ events: 17 });
    expect(await disk.idsInChunks()).toHaveLength(17);
    expect(await stateOf(disk.open())).toEqual(shown(answers));
    expect(inOrder(await store.loadAll())).toEqual(answers);
  });

  it('is sealed again without being read in between', async () => {
    await put(store, answers);
    const { events } = await store.load();
    const first = cutOf(foldLog(events), 110);
    expect(await store.seal(first.snapshot, first.sealed, 0)).toBe(true);
    const second = cutOf(foldLog(answers.slice(9), first.snapshot), 118);
    expect(await store.seal(second.snapshot, second.sealed, 9)).toBe(true);
    expect((await disk.open().load()).snapshot).toMatchObject({ events: 17 });
    expect(await stateOf(disk.open())).toEqual(shown(answers));
  });

  it('is not sealed on top of a snapshot of another number of events', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const { events, snapshot } = await store.load();
    const cut = cutOf(foldLog(events, snapshot), 118);
    const before = await disk.contents();
    expect(await store.seal(cut.snapshot, cut.sealed, 8)).toBe(false);
    expect(await disk.contents()).toEqual(before);
  });

  it('gives an event once though it is on the disk twice', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    await rawPut(disk.name, 'events', answers[0], 'a:0');
    expect(inOrder(await store.loadAll())).toEqual(answers);
    const backup = parseBackup(await backupOf(store));
    expect(backup).toMatchObject({ ok: true });
    expect(await stateOf(store)).toEqual(shown(answers));
  });

  it('continues the numbers of its events', async () => {
    for (const { card, day, at } of answers) await store.append(draft(card, day, at));
    await sealTo(store, LATE);
    expect((await disk.open().append(draft('p/9', 200, 200 * 86_400_000))).id).toBe('a:20');
    expect(await disk.open().loadAll()).toHaveLength(21);
  });

  it('is cut into chunks of two thousand', async () => {
    const many = Array.from({ length: 4500 }, (_, n) => answer(n, `p/${n % 3}`, 100));
    for (let n = 0; n < many.length; n += 1500) await put(store, many.slice(n, n + 1500));
    expect(await disk.keysOf('events')).toHaveLength(4500);
    expect(await sealTo(store, LATE)).toBe(true);
    const sizes = (await rawAll(disk.name, 'sealed')).map(
      ([, chunk]) => (chunk as unknown[]).length,
    );
    expect(sizes).toEqual([2000, 2000, 500]);
    expect(await disk.keysOf('events')).toEqual([]);
    expect(await stateOf(disk.open())).toEqual(shown(many));
  });

  it('keeps records as they are, with fields of a later version', async () => {
    await put(store, answers.slice(0, 2));
    await rawPut(disk.name, 'events', { ...answers[0], remark: 'precious' }, 'a:0');
    await sealTo(store, LATE);
    const [[, chunk] = []] = await rawAll(disk.name, 'sealed');
    expect(chunk).toContainEqual({ ...answers[0], remark: 'precious' });
  });
});

describe('two tabs', () => {
  it('seal at once: one is first, and no event is lost or duplicated', async () => {
    await put(store, answers);
    const other = disk.open();
    const done = await Promise.all([
      sealTo(store, 110),
      sealTo(other, 112),
      sealTo(disk.open(), 110),
    ]);
    expect(done.filter(Boolean)).toHaveLength(1);
    expect(await disk.idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
    expect(await stateOf(disk.open())).toEqual(shown(answers));
  });

  it('seal one after the other: the one that has not read the new snapshot is refused', async () => {
    await put(store, answers);
    await sealTo(store, 105);
    const other = disk.open();
    const before = await other.load();
    const late = cutOf(foldLog(before.events, before.snapshot), LATE);
    await sealTo(store, 110);
    expect(await other.seal(late.snapshot, late.sealed, 4)).toBe(false);
    expect((await store.load()).snapshot).toMatchObject({ events: 9 });
    expect(await stateOf(disk.open())).toEqual(shown(answers));
  });

  it('lose no answer of the tab that missed a sealing', async () => {
    await put(store, answers);
    const other = disk.open('d');
    await other.load();
    await sealTo(store, LATE);
    await other.append(draft('p/9', 200, 200 * 86_400_000));
    const all = await disk.open().loadAll();
    expect(all).toHaveLength(21);
    expect(await stateOf(disk.open())).toEqual(shown(all));
  });

  it('read everything while the other splits chunks', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    for (const today of [105, 110, 103, 119, 104]) {
      await rawPut(disk.name, 'documents', 'damaged', 'snapshot');
      const other = disk.open();
      const [read, , again] = await Promise.all([
        other.loadAll(),
        sealTo(disk.open(), today),
        backupOf(other),
      ]);
      expect(inOrder(read)).toEqual(answers);
      const backup = parseBackup(again);
      if (!backup.ok) throw new Error(backup.say);
      expect(inOrder(backup.backup.events)).toEqual(answers);
    }
    expect(await disk.idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
  });
});

describe('a chunk that is gone before it is read', () => {
  it('was split by another tab: reading starts over', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    const { get } = IDBObjectStore.prototype;
    let gone = 0;
    vi.spyOn(IDBObjectStore.prototype, 'get').mockImplementation(function (
      this: IDBObjectStore,
      key,
    ) {
      const isChunk = this.name === 'sealed';
      gone += isChunk ? 1 : 0;
      return get.call(this, isChunk && gone === 1 ? -1 : key);
    });
    expect(inOrder(await store.loadAll())).toEqual(answers);
    expect(gone).toBe(2);
  });
});

describe('a sealing that fails', () => {
  it.each(['add', 'delete', 'put'] as const)(
    'at a call to %s changes nothing, and the next one succeeds',
    async (method) => {
      await put(store, answers);
      await sealTo(store, 105);
      const before = await disk.contents();
      const refuse = vi.spyOn(IDBObjectStore.prototype, method).mockImplementation(() => {
        throw new DOMException('no room', 'QuotaExceededError');
      });
      await expect(sealTo(store, 115)).rejects.toThrow('no room');
      refuse.mockRestore();
      expect(await disk.contents()).toEqual(before);
      expect(await sealTo(store, 115)).toBe(true);
      expect(await stateOf(disk.open())).toEqual(shown(answers));
    },
  );

  it('in the middle of splitting chunks changes nothing', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    await rawPut(disk.name, 'documents', 'damaged', 'snapshot');
    const before = await disk.contents();
    let calls = 0;
    const { add } = IDBObjectStore.prototype;
    const refuse = vi.spyOn(IDBObjectStore.prototype, 'add').mockImplementation(function (
      this: IDBObjectStore,
      ...given
    ) {
      calls += 1;
      if (calls > 3) throw new DOMException('no room', 'QuotaExceededError');
      return add.apply(this, given);
    });
    await expect(sealTo(disk.open(), 110)).rejects.toThrow('no room');
    refuse.mockRestore();
    expect(await disk.contents()).toEqual(before);
  });

  it('because an event is not on the disk changes nothing', async () => {
    await put(store, answers);
    const { events } = await store.load();
    const cut = cutOf(foldLog([...events, answer(30, 'p/1', 100, 'b')]), LATE);
    const before = await disk.contents();
    expect(await store.seal(cut.snapshot, cut.sealed, 0)).toBe(false);
    expect(await disk.contents()).toEqual(before);
  });
});

function draft(card: string, day: number, at: number) {
  const { type, kind, answer: given, errors, outcome, ms } = answer(0, card, day);
  return { type, card, kind, answer: given, errors, outcome, ms, day, at };
}
