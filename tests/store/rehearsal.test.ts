import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import {
  foldLog,
  type RehearsalDraft,
  type RehearsalQuestion,
  type RehearsedDraft,
} from '../../src/scheduler/index.ts';
import { createStore, type Store } from '../../src/store/index.ts';
import { rawGet, rawPut } from './raw.ts';

let name = '';
let store: Store;
/** Another tab of the same browser. */
let other: Store;
let count = 0;

beforeEach(() => {
  name = `rehearsal-${++count}`;
  store = createStore({ name, newDeviceId: () => 'a' });
  other = createStore({ name, newDeviceId: () => 'b' });
});

describe('a rehearsal under way', () => {
  it('is there again after a reload', async () => {
    expect(await store.loadRehearsal()).toBeNull();
    expect(await store.saveRehearsal(draft(2))).toBe(true);
    await store.close();
    expect(await other.loadRehearsal()).toEqual(draft(2));
  });

  it('is kept by the tab that is further on', async () => {
    await store.saveRehearsal(draft(3));
    expect(await other.saveRehearsal(draft(2))).toBe(false);
    expect(await store.loadRehearsal()).toEqual(draft(3));
    expect(await other.saveRehearsal(draft(4))).toBe(true);
    expect(await store.loadRehearsal()).toEqual(draft(4));
  });

  it('is the longer one, though two tabs write at once', async () => {
    const tabs = [store, other];
    const lengths = [1, 4, 2, 5, 3, 0];
    await Promise.all(lengths.map((n, at) => tabs[at % 2]?.saveRehearsal(draft(n))));
    expect(await store.loadRehearsal()).toEqual(draft(5));
  });

  it('gives way to no other rehearsal until it is dropped', async () => {
    await store.saveRehearsal(draft(1));
    expect(await other.saveRehearsal(draft(9, 'sunday'))).toBe(false);
    expect(await store.loadRehearsal()).toEqual(draft(1));
    await other.dropRehearsal();
    expect(await store.loadRehearsal()).toBeNull();
    expect(await other.saveRehearsal(draft(0, 'sunday'))).toBe(true);
  });

  it('is not dropped by a tab that means another one', async () => {
    await store.saveRehearsal(draft(1, 'sunday'));
    await other.dropRehearsal('friday');
    expect(await store.loadRehearsal()).toEqual(draft(1, 'sunday'));
    await other.dropRehearsal('sunday');
    expect(await store.loadRehearsal()).toBeNull();
  });

  it('that cannot be read is left where it is, and counted', async () => {
    const newer = { ...draft(1), version: 2 };
    await store.load();
    await rawPut(name, 'documents', newer, 'rehearsal');
    expect(await store.loadRehearsal()).toBeNull();
    expect(await store.saveRehearsal(draft(9))).toBe(false);
    expect(await store.finishRehearsal('friday', rehearsed(9))).toBeNull();
    expect((await store.load()).unreadDocuments).toBe(1);
    expect(await rawGet(name, 'documents', 'rehearsal')).toEqual(newer);
  });

  it('that could not be read back is not written', async () => {
    await store.saveRehearsal(draft(1));
    await expect(store.saveRehearsal({ ...draft(2), began: -1 })).rejects.toThrow(RangeError);
    expect(await store.loadRehearsal()).toEqual(draft(1));
  });

  it('is no part of a backup', async () => {
    await store.saveRehearsal(draft(1));
    const elsewhere = createStore({ name: `${name}-elsewhere`, newDeviceId: () => 'c' });
    await elsewhere.importBackup(await store.exportBackup('2026-11-25T10:00:00Z'));
    expect(await elsewhere.loadRehearsal()).toBeNull();
  });
});

describe('finishing a rehearsal', () => {
  it('writes it and removes the one under way', async () => {
    await store.saveRehearsal(draft(2));
    const event = await store.finishRehearsal('friday', rehearsed(2));
    expect(event).toMatchObject({ ...rehearsed(2), id: 'a:0' });
    expect(await store.loadRehearsal()).toBeNull();
    expect((await other.load()).events).toEqual([event]);
  });

  it('happens once, though two tabs finish it at once', async () => {
    await store.saveRehearsal(draft(2));
    const tabs = [store, other, store, other];
    const written = await Promise.all(
      tabs.map((tab) => tab.finishRehearsal('friday', rehearsed(2))),
    );
    expect(written.filter((event) => event !== null)).toHaveLength(1);
    const { events } = await store.load();
    expect(events).toHaveLength(1);
    expect(foldLog(events).memories.get('p/0')?.answers).toBe(1);
  });

  it('writes nothing for one that was dropped, or when another has begun', async () => {
    await store.saveRehearsal(draft(2));
    await other.dropRehearsal('friday');
    expect(await store.finishRehearsal('friday', rehearsed(2))).toBeNull();
    await other.saveRehearsal(draft(1, 'sunday'));
    expect(await store.finishRehearsal('friday', rehearsed(2))).toBeNull();
    expect((await store.load()).events).toEqual([]);
    expect(await store.loadRehearsal()).toEqual(draft(1, 'sunday'));
  });

  it('writes nothing from a tab that is behind', async () => {
    await store.saveRehearsal(draft(5));
    expect(await other.finishRehearsal('friday', rehearsed(3))).toBeNull();
    expect(await store.loadRehearsal()).toEqual(draft(5));
    expect((await store.load()).events).toEqual([]);
  });

  it('is both or neither: a disk that refuses leaves the one under way', async () => {
    await store.saveRehearsal(draft(2));
    const remove = IDBObjectStore.prototype.delete;
    IDBObjectStore.prototype.delete = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    await expect(store.finishRehearsal('friday', rehearsed(2))).rejects.toThrow('no room');
    IDBObjectStore.prototype.delete = remove;
    expect((await store.load()).events).toEqual([]);
    expect(await store.loadRehearsal()).toEqual(draft(2));
    // The number was not used up either: it belongs to the transaction that failed.
    expect((await store.finishRehearsal('friday', rehearsed(2)))?.id).toBe('a:0');
  });

  it('that could not be read back writes nothing', async () => {
    await store.saveRehearsal(draft(1));
    const bad = { ...rehearsed(1), day: -1 };
    await expect(store.finishRehearsal('friday', bad)).rejects.toThrow(RangeError);
    expect(await store.loadRehearsal()).toEqual(draft(1));
  });
});

function draft(answers: number, id = 'friday'): RehearsalDraft {
  return {
    version: 1,
    id,
    spec: { patterns: ['cross-side'], kinds: ['number'], count: 20, clock: 25, counts: true },
    seed: 7,
    cards: ['p/0', 'p/1', 'p/2'],
    began: 1_728_000_000_000,
    answers: questions(answers),
  };
}

function rehearsed(answers: number): RehearsedDraft {
  return {
    type: 'rehearsed',
    counts: true,
    clock: 25,
    began: 1_728_000_000_000,
    questions: questions(answers),
    day: 20_000,
    at: 1_728_000_060_000,
  };
}

function questions(many: number): readonly RehearsalQuestion[] {
  return Array.from({ length: many }, (_, n) => ({
    card: `p/${n}`,
    kind: 'number',
    answer: [2.3],
    errors: [0.1],
    outcome: 'rattled',
    ms: 2100,
    ranOut: false,
    tolerance: 0.1,
  }));
}
