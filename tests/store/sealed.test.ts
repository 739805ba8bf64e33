import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import {
  compareEvents,
  foldLog,
  type LogEvent,
  type LogState,
  type Sealable,
  sealable,
} from '../../src/scheduler/index.ts';
import {
  createStore,
  DEFAULT_SETTINGS,
  formatBackup,
  parseBackup,
  type Store,
} from '../../src/store/index.ts';
import { historyArb } from '../scheduler/histories.ts';
import { answer, base, said } from '../scheduler/making.ts';
import { plain } from '../scheduler/plain.ts';
import { rawAll, rawGet, rawPut } from './raw.ts';

let name = '';
let store: Store;
let count = 0;

/** An answer a day, from study-day 100. */
const answers = Array.from({ length: 20 }, (_, n) => answer(n, `p/${n % 3}`, 100 + n));
/** Everything older than the last day but one. */
const LATE = 1000;

beforeEach(() => {
  name = `sealed-${++count}`;
  store = open();
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
        const one = anew();
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

  it('is opened by its snapshot and what came after it', async () => {
    await put(store, answers);
    expect(await sealTo(store, 115)).toBe(true);
    const { events, snapshot, unread } = await open().load();
    expect(snapshot).toMatchObject({ events: 14, before: 114 });
    expect(inOrder(events)).toEqual(answers.slice(14));
    expect(unread).toEqual([]);
    expect(await keysOf('events')).toHaveLength(6);
    expect(await idsInChunks()).toHaveLength(14);
  });

  it('is sealed again, on top of what was sealed', async () => {
    await put(store, answers);
    expect(await sealTo(store, 110)).toBe(true);
    expect(await sealTo(store, 118)).toBe(true);
    expect((await store.load()).snapshot).toMatchObject({ events: 17 });
    expect(await idsInChunks()).toHaveLength(17);
    expect(await stateOf(open())).toEqual(shown(answers));
    expect(inOrder(await store.loadAll())).toEqual(answers);
  });

  it('is sealed again without being read in between', async () => {
    await put(store, answers);
    const { events } = await store.load();
    const first = cutOf(foldLog(events), 110);
    expect(await store.seal(first.snapshot, first.sealed, 0)).toBe(true);
    const second = cutOf(foldLog(answers.slice(9), first.snapshot), 118);
    expect(await store.seal(second.snapshot, second.sealed, 9)).toBe(true);
    expect((await open().load()).snapshot).toMatchObject({ events: 17 });
    expect(await stateOf(open())).toEqual(shown(answers));
  });

  it('is not sealed on top of a snapshot of another number of events', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const { events, snapshot } = await store.load();
    const cut = cutOf(foldLog(events, snapshot), 118);
    const before = await disk();
    expect(await store.seal(cut.snapshot, cut.sealed, 8)).toBe(false);
    expect(await disk()).toEqual(before);
  });

  it('gives an event once that lies on the disk twice', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    await rawPut(name, 'events', answers[0], 'a:0');
    expect(inOrder(await store.loadAll())).toEqual(answers);
    const backup = parseBackup(await backupOf(store));
    expect(backup).toMatchObject({ ok: true });
    expect(await stateOf(store)).toEqual(shown(answers));
  });

  it('goes on counting its events', async () => {
    for (const { card, day, at } of answers) await store.append(draft(card, day, at));
    await sealTo(store, LATE);
    expect((await open().append(draft('p/9', 200, 200 * 86_400_000))).id).toBe('a:20');
    expect(await open().loadAll()).toHaveLength(21);
  });

  it('is cut into chunks of two thousand', async () => {
    const many = Array.from({ length: 4500 }, (_, n) => answer(n, `p/${n % 3}`, 100));
    for (let n = 0; n < many.length; n += 1500) await put(store, many.slice(n, n + 1500));
    expect(await keysOf('events')).toHaveLength(4500);
    expect(await sealTo(store, LATE)).toBe(true);
    const sizes = (await rawAll(name, 'sealed')).map(([, chunk]) => (chunk as unknown[]).length);
    expect(sizes).toEqual([2000, 2000, 500]);
    expect(await keysOf('events')).toEqual([]);
    expect(await stateOf(open())).toEqual(shown(many));
  });

  it('keeps records as they are, and so what a later version wrote beside', async () => {
    await put(store, answers.slice(0, 2));
    await rawPut(name, 'events', { ...answers[0], remark: 'precious' }, 'a:0');
    await sealTo(store, LATE);
    const [[, chunk] = []] = await rawAll(name, 'sealed');
    expect(chunk).toContainEqual({ ...answers[0], remark: 'precious' });
  });
});

describe('two tabs', () => {
  it('that seal at once: one is first, and nothing is lost or there twice', async () => {
    await put(store, answers);
    const other = open();
    const done = await Promise.all([sealTo(store, 110), sealTo(other, 112), sealTo(open(), 110)]);
    expect(done.filter(Boolean)).toHaveLength(1);
    expect(await idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
    expect(await stateOf(open())).toEqual(shown(answers));
  });

  it('of which one seals on what the other has sealed meanwhile: it is refused', async () => {
    await put(store, answers);
    await sealTo(store, 105);
    const other = open();
    const before = await other.load();
    const late = cutOf(foldLog(before.events, before.snapshot), LATE);
    await sealTo(store, 110);
    expect(await other.seal(late.snapshot, late.sealed, 4)).toBe(false);
    expect((await store.load()).snapshot).toMatchObject({ events: 9 });
    expect(await stateOf(open())).toEqual(shown(answers));
  });

  it('of which one has not heard of a sealing lose none of its answers', async () => {
    await put(store, answers);
    const other = createStore({ name, newDeviceId: () => 'd' });
    await other.load();
    await sealTo(store, LATE);
    await other.append(draft('p/9', 200, 200 * 86_400_000));
    const all = await open().loadAll();
    expect(all).toHaveLength(21);
    expect(await stateOf(open())).toEqual(shown(all));
  });

  it('of which one reads everything while the other takes chunks apart: it reads all', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    for (const today of [105, 110, 103, 119, 104]) {
      await rawPut(name, 'documents', 'damaged', 'snapshot');
      const other = open();
      const [read, , again] = await Promise.all([
        other.loadAll(),
        sealTo(open(), today),
        backupOf(other),
      ]);
      expect(inOrder(read)).toEqual(answers);
      const backup = parseBackup(again);
      if (!backup.ok) throw new Error(backup.say);
      expect(inOrder(backup.backup.events)).toEqual(answers);
    }
    expect(await idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
  });
});

describe('a chunk that is gone when its turn comes', () => {
  it('was taken apart by another tab: everything is read anew', async () => {
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
    'at a call to %s changes nothing, and succeeds the next time',
    async (method) => {
      await put(store, answers);
      await sealTo(store, 105);
      const before = await disk();
      const refuse = vi.spyOn(IDBObjectStore.prototype, method).mockImplementation(() => {
        throw new DOMException('no room', 'QuotaExceededError');
      });
      await expect(sealTo(store, 115)).rejects.toThrow('no room');
      refuse.mockRestore();
      expect(await disk()).toEqual(before);
      expect(await sealTo(store, 115)).toBe(true);
      expect(await stateOf(open())).toEqual(shown(answers));
    },
  );

  it('in the middle of taking chunks apart changes nothing', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    await rawPut(name, 'documents', 'damaged', 'snapshot');
    const before = await disk();
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
    await expect(sealTo(open(), 110)).rejects.toThrow('no room');
    refuse.mockRestore();
    expect(await disk()).toEqual(before);
  });

  it('because an event is not on the disk changes nothing', async () => {
    await put(store, answers);
    const { events } = await store.load();
    const cut = cutOf(foldLog([...events, answer(30, 'p/1', 100, 'b')]), LATE);
    const before = await disk();
    expect(await store.seal(cut.snapshot, cut.sealed, 0)).toBe(false);
    expect(await disk()).toEqual(before);
  });
});

describe('a snapshot is a cache', () => {
  const spoilt: readonly (readonly [string, (stored: object) => unknown])[] = [
    ['that is missing', () => undefined],
    ['that is nonsense', () => 'nonsense'],
    ['without its place', ({ upTo: _, ...stored }: { upTo?: number }) => stored],
    ['of another version', withSnapshot((old) => ({ ...old, version: 99 }))],
    ['that is none', withSnapshot(() => null)],
    ['with a part missing', withSnapshot(({ fold: _, ...old }: { fold?: unknown }) => old)],
  ];

  it.each(spoilt)('%s: everything is folded, and sealed anew', async (_name, spoil) => {
    await put(store, answers);
    await sealTo(store, 110);
    const stored = (await rawGet(name, 'documents', 'snapshot')) as object;
    await rawPut(name, 'documents', spoil(stored), 'snapshot');
    const other = open();
    expect((await other.load()).snapshot).toBeNull();
    expect(await stateOf(other)).toEqual(shown(answers));
    expect(await sealTo(other, 115)).toBe(true);
    expect((await open().load()).snapshot).toMatchObject({ events: 14 });
    expect(await stateOf(open())).toEqual(shown(answers));
    expect(await idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
  });

  it('of which less is sealed the second time: what is left out is recent again', async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    await rawPut(name, 'documents', undefined, 'snapshot');
    const other = open();
    expect(await sealTo(other, 108)).toBe(true);
    expect(await keysOf('events')).toHaveLength(13);
    expect((await open().load()).snapshot).toMatchObject({ events: 7 });
    expect(await stateOf(open())).toEqual(shown(answers));
    expect(await idsOnDisk()).toEqual(answers.map(({ id }) => id).sort());
  });

  it('is not gone on from when a backup brings what is older, and is made anew', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const older = answer(0, 'p/1', 50, 'b');
    await put(store, [older]);
    const all = [...answers, older];
    expect((await store.load()).snapshot).toBeNull();
    expect(await stateOf(store)).toEqual(shown(all));
    expect(await sealTo(store, 115)).toBe(true);
    expect((await open().load()).snapshot).toMatchObject({ events: 15 });
    expect(await stateOf(open())).toEqual(shown(all));
  });

  it('is not gone on from when a sealed answer is taken back', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const back = said(base(30, 130), 'taken back', { answered: 'a:2' });
    await put(store, [back]);
    expect(await stateOf(open())).toEqual(shown([...answers, back]));
  });
});

describe('a damaged record in a chunk', () => {
  const damaged = { ...answers[3], day: 'Tuesday' };

  beforeEach(async () => {
    await put(store, answers);
    await sealTo(store, LATE);
    await spoilChunk((records) =>
      records.map((record) => ((record as LogEvent).id === 'a:3' ? damaged : record)),
    );
    await rawPut(name, 'documents', undefined, 'snapshot');
  });

  it('is counted and kept, and the others are read', async () => {
    const { events, unread } = await store.load();
    expect(events).toHaveLength(19);
    expect(unread).toEqual([{ key: 'a:3', record: damaged }]);
    await sealTo(store, LATE);
    const [[, chunk] = []] = await rawAll(name, 'sealed');
    expect(chunk).toContainEqual(damaged);
    expect(await store.loadAll()).toHaveLength(19);
  });

  it('is kept when its chunk is taken apart', async () => {
    await sealTo(store, 110);
    await rawPut(name, 'documents', undefined, 'snapshot');
    expect((await open().load()).unread).toEqual([{ key: 'a:3', record: damaged }]);
  });

  it('goes into a backup, and comes back once', async () => {
    const text = await backupOf(store);
    const other = anew();
    expect(await other.importBackup(text)).toMatchObject({ ok: true, added: 19 });
    expect((await other.load()).unread).toEqual([{ key: 'a:3', record: damaged }]);
    expect(await store.importBackup(text)).toMatchObject({ ok: true, added: 0 });
    expect((await store.load()).unread).toHaveLength(1);
    expect(await other.importBackup(await backupOf(store))).toMatchObject({ added: 0 });
  });

  it('has its answer brought back by an earlier backup', async () => {
    await put(store, answers);
    expect(inOrder((await store.load()).events)).toEqual(answers);
    expect(await sealTo(store, LATE)).toBe(true);
    expect(inOrder(await open().loadAll())).toEqual(answers);
    expect(await stateOf(open())).toEqual(shown(answers));
    // Elsewhere the answer takes its place.
    const other = anew();
    expect(await other.importBackup(await backupOf(store))).toMatchObject({ ok: true, added: 20 });
    expect((await other.load()).unread).toEqual([]);
  });

  it('or a chunk that is none loses nothing else', async () => {
    await spoilChunk(() => 'nonsense');
    const { events, unread } = await store.load();
    expect(events).toEqual([]);
    expect(unread.map(({ record }) => record)).toEqual(['nonsense']);
    await put(store, answers);
    expect(await stateOf(store)).toEqual(shown(answers));
  });
});

describe('a backup of a sealed log', () => {
  it('has everything, in the format of any other', async () => {
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
    const other = anew();
    expect(await other.importBackup(text)).toMatchObject({ ok: true, added: 20 });
    expect(await stateOf(other)).toEqual(shown(answers));
  });

  it('of any history carries it to another device, sealed or not', async () => {
    await fc.assert(
      fc.asyncProperty(historyArb, fc.integer({ min: 98, max: 200 }), async (events, today) => {
        const one = anew();
        await put(one, events);
        await sealTo(one, today);
        const other = anew();
        await put(other, events.slice(0, 3));
        await sealTo(other, today);
        const added = Math.max(0, events.length - 3);
        expect(await other.importBackup(await backupOf(one))).toMatchObject({ ok: true, added });
        expect(await stateOf(other)).toEqual(shown(events));
        expect(await one.importBackup(await backupOf(other))).toMatchObject({ ok: true, added: 0 });
      }),
    );
  });

  it('of an empty log is a list of nothing', async () => {
    expect(parseBackup(await backupOf(store))).toMatchObject({ ok: true, backup: { events: [] } });
  });

  it('that contradicts a sealed answer is refused, and nothing changes', async () => {
    await put(store, answers);
    await sealTo(store, 110);
    const before = await disk();
    const told = [{ ...answers[2], ms: 1 } as LogEvent, answer(0, 'p/1', 140, 'b')];
    expect(await store.importBackup(textOf(told))).toMatchObject({
      ok: false,
      code: 'contradicts',
    });
    expect(await disk()).toEqual(before);
  });

  it('does not bring settings to a device whose answers are all sealed', async () => {
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

  it('comes in as chunks, is all there, and is sealed where it lies', async () => {
    await put(store, long);
    expect(await keysOf('events')).toEqual([]);
    expect(await stateOf(store)).toEqual(shown(long));
    expect(await sealTo(store, LATE)).toBe(true);
    expect((await open().load()).snapshot).toMatchObject({ events: 2600 });
    expect(await idsOnDisk()).toHaveLength(2600);
    expect(await stateOf(open())).toEqual(shown(long));
  });

  it('whose last days are not yet to be sealed: they are recent', async () => {
    await put(store, long);
    expect(await sealTo(store, 125)).toBe(true);
    expect(await keysOf('events')).toHaveLength(200);
    expect(await stateOf(open())).toEqual(shown(long));
    expect(await idsOnDisk()).toHaveLength(2600);
  });

  it('that is newer than what is sealed is read on top of that', async () => {
    const old = answer(0, 'p/1', 50, 'b');
    await put(store, [old]);
    await sealTo(store, 60);
    await put(store, long);
    const { snapshot, events } = await store.load();
    expect(snapshot).toMatchObject({ events: 1 });
    expect(events).toHaveLength(2600);
    expect(await sealTo(store, 125)).toBe(true);
    expect((await open().load()).snapshot).toMatchObject({ events: 2401 });
    expect(await stateOf(open())).toEqual(shown([old, ...long]));
  });
});

function open(): Store {
  return createStore({ name, newDeviceId: () => 'a' });
}

function anew(): Store {
  return createStore({ name: `sealed-${++count}`, newDeviceId: () => 'c' });
}

/** Puts events in as they are, which only a backup does. */
async function put(into: Store, events: readonly LogEvent[]): Promise<void> {
  const result = await into.importBackup(textOf(events));
  if (!result.ok) throw new Error(result.say);
}

function textOf(events: readonly LogEvent[]): string {
  return formatBackup({ events, charts: [], settings: DEFAULT_SETTINGS, unread: [] }, '');
}

async function backupOf(from: Store): Promise<string> {
  return (await from.exportBackup('2026-11-25T10:00:00Z')).text();
}

/** Seals what may be sealed on a study-day, however little it is. */
async function sealTo(what: Store, today: number): Promise<boolean> {
  const { events, snapshot } = await what.load();
  const cut = sealable(foldLog(events, snapshot), today, 1);
  return cut ? what.seal(cut.snapshot, cut.sealed, snapshot?.events ?? 0) : false;
}

function cutOf(log: LogState, today: number): Sealable {
  const cut = sealable(log, today, 1);
  if (!cut) throw new Error('there is something to seal');
  return cut;
}

async function stateOf(what: Store) {
  const { events, snapshot } = await what.load();
  return withoutSealed(foldLog(events, snapshot));
}

function shown(events: readonly LogEvent[]) {
  return withoutSealed(foldLog(events));
}

/** Of what is sealed, a state has those events only that screens show again. */
function withoutSealed(log: LogState) {
  const { events: _, takenBack: __, ...state } = plain(log);
  const again = [...log.events].filter(({ type }) =>
    ['drilled', 'rehearsed', 'proved'].includes(type),
  );
  return { ...state, again };
}

function inOrder(events: readonly LogEvent[]): readonly LogEvent[] {
  return [...events].sort(compareEvents);
}

function draft(card: string, day: number, at: number) {
  const { type, kind, answer: given, errors, outcome, ms } = answer(0, card, day);
  return { type, card, kind, answer: given, errors, outcome, ms, day, at };
}

async function keysOf(storeName: string): Promise<readonly IDBValidKey[]> {
  return (await rawAll(name, storeName)).map(([key]) => key);
}

async function idsInChunks(): Promise<readonly string[]> {
  const chunks = await rawAll(name, 'sealed');
  return chunks.flatMap(([, chunk]) => (chunk as LogEvent[]).map(({ id }) => id));
}

/** Of every event on the disk, as often as it is there. */
async function idsOnDisk(): Promise<readonly string[]> {
  return [...(await keysOf('events')).map(String), ...(await idsInChunks())].sort();
}

async function disk() {
  return {
    events: await rawAll(name, 'events'),
    sealed: await rawAll(name, 'sealed'),
    documents: await rawAll(name, 'documents'),
  };
}

async function spoilChunk(spoil: (records: readonly unknown[]) => unknown): Promise<void> {
  const [[key, chunk] = []] = await rawAll(name, 'sealed');
  await rawPut(name, 'sealed', spoil(chunk as unknown[]), key as never);
}

function withSnapshot(change: (old: object) => unknown): (stored: object) => unknown {
  return (stored) => ({ ...stored, snapshot: change((stored as { snapshot: object }).snapshot) });
}
