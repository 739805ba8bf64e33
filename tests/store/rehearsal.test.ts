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
    await begin(2);
    await store.close();
    expect(await other.loadRehearsal()).toEqual(draft(2));
  });

  it('is saved by the tab that is ahead', async () => {
    await begin(3);
    expect(await other.saveRehearsal(draft(2))).toBe(false);
    expect(await store.loadRehearsal()).toEqual(draft(3));
    expect(await other.saveRehearsal(draft(4))).toBe(true);
    expect(await store.loadRehearsal()).toEqual(draft(4));
  });

  it('grows by one answer though two tabs write at once', async () => {
    await begin(1);
    const tabs = [store, other, store, other];
    const called = (answer: number): RehearsalDraft => {
      const [first, second] = questions(2) as [RehearsalQuestion, RehearsalQuestion];
      return { ...draft(1), answers: [first, { ...second, answer: [answer] }] };
    };
    const kept = await Promise.all(tabs.map((tab, n) => tab.saveRehearsal(called(n))));
    expect(kept).toEqual([true, false, false, false]);
    expect(await store.loadRehearsal()).toEqual(called(0));
  });

  it('is not overwritten by another answer to the same question', async () => {
    await begin(2);
    const [first, second] = questions(2) as [RehearsalQuestion, RehearsalQuestion];
    const another = { ...draft(2), answers: [first, { ...second, answer: [7] }] };
    expect(await other.saveRehearsal(another)).toBe(false);
    expect(await store.loadRehearsal()).toEqual(draft(2));
    // One that continues from the other answer is another rehearsal by now.
    const further = [...another.answers, questions(3)[2] as RehearsalQuestion];
    expect(await other.saveRehearsal({ ...draft(3), answers: further })).toBe(false);
    expect(await other.saveRehearsal(draft(2))).toBe(true);
  });

  it('neither begins in the middle nor skips an answer', async () => {
    expect(await store.saveRehearsal(draft(1))).toBe(false);
    expect(await store.loadRehearsal()).toBeNull();
    await begin(1);
    expect(await store.saveRehearsal(draft(3))).toBe(false);
  });

  it('does not come back after another tab dropped it', async () => {
    await begin(2);
    await other.dropRehearsal('friday');
    for (const answers of [0, 2, 3]) {
      expect(await store.saveRehearsal(draft(answers))).toBe(false);
    }
    expect(await store.loadRehearsal()).toBeNull();
  });

  it('is not replaced by another rehearsal until it is dropped', async () => {
    await begin(1);
    expect(await other.saveRehearsal(draft(9, 'sunday'))).toBe(false);
    expect(await store.loadRehearsal()).toEqual(draft(1));
    await other.dropRehearsal();
    expect(await store.loadRehearsal()).toBeNull();
    expect(await other.saveRehearsal(draft(0, 'sunday'))).toBe(true);
  });

  it('is not dropped by a tab that means another rehearsal', async () => {
    await begin(1, 'sunday');
    await other.dropRehearsal('friday');
    expect(await store.loadRehearsal()).toEqual(draft(1, 'sunday'));
    await other.dropRehearsal('sunday');
    expect(await store.loadRehearsal()).toBeNull();
  });

  it('is left where it is, and reported, if it cannot be read', async () => {
    const newer = { ...draft(1), version: 2 };
    await store.load();
    await rawPut(name, 'documents', newer, 'rehearsal');
    expect(await store.loadRehearsal()).toBe('unreadable');
    expect(await store.saveRehearsal(draft(9))).toBe(false);
    expect(await store.finishRehearsal('friday', rehearsed(9))).toBeNull();
    expect(await rawGet(name, 'documents', 'rehearsal')).toEqual(newer);
  });

  it('is not written if it could not be read back', async () => {
    await begin(1);
    await expect(store.saveRehearsal({ ...draft(2), began: -1 })).rejects.toThrow(RangeError);
    expect(await store.loadRehearsal()).toEqual(draft(1));
  });

  it('is no part of a backup', async () => {
    await begin(1);
    const elsewhere = createStore({ name: `${name}-elsewhere`, newDeviceId: () => 'c' });
    const backup = await store.exportBackup('2026-11-25T10:00:00Z');
    await elsewhere.importBackup(await backup.text());
    expect(await elsewhere.loadRehearsal()).toBeNull();
  });
});

describe('finishing a rehearsal', () => {
  it('writes it and removes the one under way', async () => {
    await begin(2);
    const event = await store.finishRehearsal('friday', rehearsed(2));
    expect(event).toMatchObject({ ...rehearsed(2), id: 'a:0' });
    expect(await store.loadRehearsal()).toBeNull();
    expect((await other.load()).events).toEqual([event]);
  });

  it('happens once though two tabs finish it at once', async () => {
    await begin(2);
    const tabs = [store, other, store, other];
    const written = await Promise.all(
      tabs.map((tab) => tab.finishRehearsal('friday', rehearsed(2))),
    );
    expect(written.filter((event) => event !== null)).toHaveLength(1);
    const { events } = await store.load();
    expect(events).toHaveLength(1);
    expect(foldLog(events).memories.get('p/0')?.answers).toBe(1);
  });

  it('counts once, and does not come back for a tab that continues answering', async () => {
    await begin(2);
    expect(await store.finishRehearsal('friday', rehearsed(2))).not.toBeNull();
    for (const answers of [0, 2, 3]) {
      expect(await other.saveRehearsal(draft(answers))).toBe(false);
      expect(await other.finishRehearsal('friday', rehearsed(answers))).toBeNull();
    }
    expect(await other.loadRehearsal()).toBeNull();
    expect((await store.load()).events).toHaveLength(1);
  });

  it('counts once though its document is put back from outside', async () => {
    await begin(2);
    await store.finishRehearsal('friday', rehearsed(2));
    await rawPut(name, 'documents', draft(2), 'rehearsal');
    expect(await store.finishRehearsal('friday', rehearsed(2))).toBeNull();
    expect((await store.load()).events).toHaveLength(1);
    await store.dropRehearsal('friday');
    await begin(1, 'sunday');
  });

  it('writes the answers on the disk, and no others', async () => {
    await begin(2);
    const [first, second] = questions(2) as [RehearsalQuestion, RehearsalQuestion];
    const others = { ...rehearsed(2), questions: [first, { ...second, answer: [7] }] };
    expect(await store.finishRehearsal('friday', others)).toBeNull();
    expect(await store.finishRehearsal('friday', rehearsed(3))).toBeNull();
    expect(await store.finishRehearsal('friday', rehearsed(2))).not.toBeNull();
  });

  it('writes nothing if the rehearsal was dropped, or another has begun', async () => {
    await begin(2);
    await other.dropRehearsal('friday');
    expect(await store.finishRehearsal('friday', rehearsed(2))).toBeNull();
    await begin(1, 'sunday');
    expect(await store.finishRehearsal('friday', rehearsed(2))).toBeNull();
    expect((await store.load()).events).toEqual([]);
    expect(await store.loadRehearsal()).toEqual(draft(1, 'sunday'));
  });

  it('writes nothing from a tab that is behind', async () => {
    await begin(5);
    expect(await other.finishRehearsal('friday', rehearsed(3))).toBeNull();
    expect(await store.loadRehearsal()).toEqual(draft(5));
    expect((await store.load()).events).toEqual([]);
  });

  it('does both or neither: if the disk refuses, the rehearsal is still under way', async () => {
    await begin(2);
    const remove = IDBObjectStore.prototype.delete;
    IDBObjectStore.prototype.delete = () => {
      throw new DOMException('no room', 'QuotaExceededError');
    };
    await expect(store.finishRehearsal('friday', rehearsed(2))).rejects.toThrow('no room');
    IDBObjectStore.prototype.delete = remove;
    expect((await store.load()).events).toEqual([]);
    expect(await store.loadRehearsal()).toEqual(draft(2));
    // The number is not used up, either: it belongs to the transaction that failed.
    expect((await store.finishRehearsal('friday', rehearsed(2)))?.id).toBe('a:0');
  });

  it('writes nothing that could not be read back', async () => {
    await begin(1);
    const bad = { ...rehearsed(1), day: -1 };
    await expect(store.finishRehearsal('friday', bad)).rejects.toThrow(RangeError);
    expect(await store.loadRehearsal()).toEqual(draft(1));
  });
});

/** Begins a rehearsal and answers so many questions, one after the other, as a tab does. */
async function begin(answers: number, id = 'friday'): Promise<void> {
  for (let n = 0; n <= answers; n++) {
    expect(await store.saveRehearsal(draft(n, id))).toBe(true);
  }
}

function draft(answers: number, id = 'friday'): RehearsalDraft {
  return {
    version: 1,
    id,
    spec: { patterns: ['cross-side'], kinds: ['number'], count: 20, clock: 25, counts: true },
    naming: 'through',
    tolerance: 0.1,
    pictures: 'all',
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
