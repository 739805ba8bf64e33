import { noForecaster } from './no-forecaster.ts';
import 'fake-indexeddb/auto';
import { beforeEach, describe, expect, it } from 'vitest';
import { keepRehearsal } from '../../../src/app/state/kept-rehearsal.ts';
import { createModel, type Model } from '../../../src/app/state/model.ts';
import type { Clock } from '../../../src/app/state/study-day.ts';
import type { RehearsalDraft, RehearsedDraft } from '../../../src/scheduler/index.ts';
import { createStore } from '../../../src/store/index.ts';
import { rawPut } from '../../store/raw.ts';

const clock: Clock = { now: () => Date.UTC(2026, 10, 25, 12), offsetMinutes: () => 0 };
let count = 0;
let first: Model;
let second: Model;

/** Two tabs of one browser. */
beforeEach(async () => {
  const name = `kept-rehearsal-${++count}`;
  const tab = (other: () => Model) => {
    const store = createStore({ name, newDeviceId: () => 'a' });
    return createModel({
      forecaster: noForecaster,
      store,
      clock,
      channel: { send: (message) => other().receive(message) },
    });
  };
  first = tab(() => second);
  second = tab(() => first);
  await first.open();
  await second.open();
});

describe('the rehearsal under way', () => {
  it('does not exist at first', () => {
    expect(first.rehearsal.value).toBeNull();
  });

  it('appears in the other tab, and in one opened after it began', async () => {
    await begin(1);
    expect(first.rehearsal.value).toEqual(draft(1));
    await heard();
    expect(second.rehearsal.value).toEqual(draft(1));
  });

  it('is over for a tab that does not know yet that the other one finished it', async () => {
    await begin(2);
    await first.finishRehearsal('friday', finished(2));
    expect(await second.saveRehearsal(draft(2))).toBe(false);
    expect(await second.finishRehearsal('friday', finished(2))).toBeNull();
    expect(second.rehearsal.value).toBeNull();
  });

  it('is the one further on for a tab that is behind and tries to write', async () => {
    await begin(3);
    expect(await second.saveRehearsal(draft(2))).toBe(false);
    expect(second.rehearsal.value).toEqual(draft(3));
  });

  it('disappears from both when it is finished, and both logs have it once', async () => {
    await begin(2);
    await heard();
    const [mine, theirs] = await Promise.all([
      first.finishRehearsal('friday', finished(2)),
      second.finishRehearsal('friday', finished(2)),
    ]);
    expect([mine, theirs].filter((event) => event !== null)).toHaveLength(1);
    await heard();
    for (const { rehearsal, log } of [first, second]) {
      expect(rehearsal.value).toBeNull();
      expect(log.value.events).toHaveLength(1);
      expect(log.value.memories.get('p/0')?.answers).toBe(1);
    }
  });

  it('disappears from both when it is dropped, and is not in the log', async () => {
    await begin(2);
    await heard();
    await second.dropRehearsal('friday');
    await heard();
    for (const { rehearsal, log } of [first, second]) {
      expect(rehearsal.value).toBeNull();
      expect(log.value.events).toEqual([]);
    }
  });

  it('leaves its set-up in both tabs when it is over', async () => {
    expect(first.lastRehearsal.value).toBeNull();
    await begin(2);
    await heard();
    await second.dropRehearsal('friday');
    await heard();
    for (const { rehearsal, lastRehearsal } of [first, second]) {
      expect(rehearsal.value).toBeNull();
      expect(lastRehearsal.value).toEqual(draft(0).spec);
    }
  });

  it('is counted if it cannot be read, until either tab drops it', async () => {
    await rawPut(`kept-rehearsal-${count}`, 'documents', { version: 2 }, 'rehearsal');
    await Promise.all([first.open(), second.open()]);
    const seen = () => [first, second].map(({ unreadable }) => unreadable.value);
    expect(seen()).toEqual([1, 1]);
    expect(first.rehearsal.value).toBeNull();
    await second.dropRehearsal();
    await heard();
    expect(seen()).toEqual([0, 0]);
  });

  it('is what this tab wrote last, even if an older reading ends after that', async () => {
    const store = createStore({ name: `kept-rehearsal-${count}`, newDeviceId: () => 'a' });
    let read = (_old: null): void => undefined;
    const slow = {
      ...store,
      loadRehearsal: () => new Promise<null>((ok) => (read = ok)),
    };
    const kept = keepRehearsal({
      store: slow,
      shareEvent: () => undefined,
      tell: () => undefined,
    });
    const reading = kept.readRehearsal();
    await kept.saveRehearsal(draft(0));
    read(null);
    await reading;
    expect(kept.rehearsal.value).toEqual(draft(0));
  });
});

/** Begins one in the first tab and answers some of its questions. */
async function begin(answers: number): Promise<void> {
  for (let n = 0; n <= answers; n++) {
    expect(await first.saveRehearsal(draft(n))).toBe(true);
  }
}

/** Waits for the other tab to read the disk: a few turns of the event loop. */
function heard(): Promise<void> {
  return new Promise((resolve) => setTimeout(resolve, 20));
}

function questions(answers: number): RehearsalDraft['answers'] {
  return Array.from({ length: answers }, (_, n) => ({
    card: `p/${n}`,
    kind: 'number',
    answer: [2.3],
    errors: [0],
    outcome: 'pocketed',
    ms: 1000,
    ranOut: false,
    tolerance: 0.1,
  }));
}

function draft(answers: number): RehearsalDraft {
  const spec = { patterns: [], kinds: [], count: 3, clock: 25, counts: true } as const;
  const cards = ['p/0', 'p/1', 'p/2'];
  const terms = { naming: 'through', tolerance: 0.1, pictures: 'all' } as const;
  const rest = { version: 1, id: 'friday', spec, seed: 7, cards, began: 1000 } as const;
  return { ...terms, ...rest, answers: questions(answers) };
}

function finished(answers: number): RehearsedDraft {
  const when = { day: 20_782, at: Date.UTC(2026, 10, 25, 12), began: 1000, seed: 7 };
  return { type: 'rehearsed', ...when, counts: true, clock: 25, questions: questions(answers) };
}
