import { noForecaster } from './no-forecaster.ts';
import 'fake-indexeddb/auto';
import { effect } from '@preact/signals';
import { beforeEach, describe, expect, it } from 'vitest';
import { createModel, type Model } from '../../../src/app/state/model.ts';
import type { Clock } from '../../../src/app/state/study-day.ts';
import type { EventDraft } from '../../../src/scheduler/index.ts';
import { createStore, type Store } from '../../../src/store/index.ts';

const HOUR = 3_600_000;
let now = 0;
let offset = 0;
let name = '';
let count = 0;
let sent: unknown[] = [];
let store: Store;
let model: Model;

const clock: Clock = { now: () => now, offsetMinutes: () => offset };

beforeEach(async () => {
  // 2026-11-25 12:00 UTC
  now = Date.UTC(2026, 10, 25, 12);
  offset = 0;
  sent = [];
  name = `model-${++count}`;
  store = createStore({ name, newDeviceId: () => 'a' });
  model = modelOn(store);
  await model.open();
});

function modelOn(on: Store): Model {
  return createModel({
    forecaster: noForecaster,
    store: on,
    clock,
    channel: { send: (message) => sent.push(message) },
  });
}

describe('the model', () => {
  it('opens with the demo charts, and stores them', async () => {
    expect(model.opening.value.at).toBe('open');
    expect(model.cards.value.length).toBeGreaterThan(80);
    expect((await store.load()).charts).toHaveLength(2);
  });

  it('shows on a new device what will be on it while the database is created', async () => {
    const fresh = modelOn(createStore({ name: `${name}-new`, newDeviceId: () => 'b' }));
    const opened = fresh.open(true);
    expect(fresh.opening.value.at).toBe('open');
    expect(fresh.day.value).toBe(fresh.today());
    const [chart, cards] = [fresh.chart.value, fresh.cards.value];
    const line = cards[0]?.lineId ?? '';
    const met = await fresh.append({ type: 'met', line, day: fresh.today(), at: now });
    await opened;
    expect(fresh.opening.value.at).toBe('open');
    // A session that depends on them continues.
    expect(fresh.chart.value).toBe(chart);
    expect(fresh.cards.value).toBe(cards);
    expect([...fresh.log.value.events]).toEqual([met]);
  });

  it('clears the screen again if the device was not new', async () => {
    const met = { type: 'met', line: 'p/1', day: model.today(), at: now } as const;
    await model.append(met);
    const again = modelOn(createStore({ name, newDeviceId: () => 'a' }));
    const seen: string[] = [];
    const stop = effect(() => void seen.push(again.opening.value.at));
    await again.open(true);
    stop();
    expect(seen).toEqual(['opening', 'open', 'opening', 'open']);
    expect([...again.log.value.events]).toMatchObject([met]);
  });

  it('says in a sentence if the browser stores nothing', async () => {
    const broken: Store = { ...store, load: () => Promise.reject(new Error('denied')) };
    const other = createModel({
      forecaster: noForecaster,
      store: broken,
      clock,
      channel: { send: () => undefined },
    });
    await other.open();
    expect(other.opening.value).toMatchObject({
      at: 'failed',
      say: expect.stringContaining('(denied)'),
    });
  });

  it('begins the day at the player’s own hour', async () => {
    const day = model.today();
    now += 15.9 * HOUR;
    expect(model.today()).toBe(day);
    now += 0.2 * HOUR;
    expect(model.today()).toBe(day + 1);
    await model.changeSettings({ dayBoundaryHour: 6 });
    expect(model.today()).toBe(day);
    expect(model.day.value).toBe(day);
  });

  it('loses no change of a setting that is made before the last one is on the disk', async () => {
    await Promise.all([
      model.changeSettings(({ use }) => ({ use: { ...use, 'cross-side': 'seldom' } })),
      model.changeSettings({ given: false }),
      model.changeSettings(({ use }) => ({ use: { ...use, 'cross-corner': 'often' } })),
    ]);
    const both = { use: { 'cross-side': 'seldom', 'cross-corner': 'often' }, given: false };
    expect(model.settings.value).toMatchObject(both);
    expect((await store.load()).settings).toMatchObject(both);
  });

  it('adds another tab’s event once', async () => {
    await model.append(draft());
    const [message] = sent;
    model.receive(message);
    expect(model.log.value.events).toHaveLength(1);
    const other = createModel({
      forecaster: noForecaster,
      store,
      clock,
      channel: { send: () => undefined },
    });
    other.receive(message);
    expect(other.log.value.memories.has('p/1')).toBe(true);
  });

  it('loses no answer written while the disk is read again', async () => {
    const read = gate();
    const held = gate();
    const load: Store['load'] = async () => {
      const contents = await store.load();
      read.open();
      await held.opened;
      return contents;
    };
    const channel = { send: () => undefined };
    const slow = createModel({
      forecaster: noForecaster,
      store: { ...store, load },
      clock,
      channel,
    });
    const opening = slow.open();
    await read.opened;
    await slow.append(draft());
    held.open();
    await opening;
    expect(slow.log.value.events).toHaveLength(1);
  });

  it('keeps its chart the same object when nothing about it changed', async () => {
    const { value } = model.chart;
    model.receive({ type: 'reload' });
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(model.chart.value).toBe(value);
  });

  it('counts an answer as saved even if other tabs cannot be told', async () => {
    const deaf = createModel({
      forecaster: noForecaster,
      store,
      clock,
      channel: {
        send: () => {
          throw new Error('closed');
        },
      },
    });
    await deaf.open();
    await expect(deaf.append(draft())).resolves.toMatchObject({ card: 'p/1' });
  });

  it('ignores malformed messages of a channel', async () => {
    for (const message of [null, 7, {}, { type: 'event', event: { id: 'x' } }])
      model.receive(message);
    await new Promise((resolve) => setTimeout(resolve, 20));
    expect(model.log.value.events).toHaveLength(0);
    expect(model.opening.value.at).toBe('open');
  });

  it('restores a backup into a running app', async () => {
    await model.append(draft());
    const text = await (await model.exportBackup()).text();
    const fresh = createStore({ name: `${name}-other`, newDeviceId: () => 'b' });
    const other = createModel({
      forecaster: noForecaster,
      store: fresh,
      clock,
      channel: { send: () => undefined },
    });
    await other.open();
    expect(await other.importBackup(text)).toEqual({ ok: true, added: 1, charts: 0 });
    expect(other.log.value.memories.size).toBe(1);
  });
});

describe('a long log', () => {
  /** A page opened again, and its idle work. */
  const reopened = async (): Promise<{ model: Model; idle: () => Promise<void> }> => {
    const works: (() => Promise<void>)[] = [];
    const again = createModel({
      forecaster: noForecaster,
      store: createStore({ name, newDeviceId: () => 'b' }),
      clock,
      channel: { send: () => undefined },
      whenIdle: (work) => works.push(work),
    });
    await again.open();
    return { model: again, idle: async () => works.shift()?.() };
  };

  beforeEach(async () => {
    const old = { day: model.today() - 9, at: now - 9 * 24 * HOUR };
    await store.appendAll(Array.from({ length: 2000 }, () => ({ ...draft(), ...old })));
    await store.append(draft());
  });

  it('is sealed when the page is idle, and next opens from the snapshot', async () => {
    const before = await reopened();
    expect(before.model.log.value.rawEvents).toHaveLength(2001);
    await before.idle();
    const after = await reopened();
    expect(after.model.log.value.rawEvents).toHaveLength(1);
    expect(after.model.log.value.base?.events).toBe(2000);
    expect(answersOf(after.model)).toBe(2001);
    expect(answersOf(before.model)).toBe(2001);
  });

  it('is sealed again on top of the snapshot', async () => {
    await (await reopened()).idle();
    now += 5 * 24 * HOUR;
    await store.appendAll(Array.from({ length: 2000 }, draft));
    now += 5 * 24 * HOUR;
    await (await reopened()).idle();
    const after = await reopened();
    expect(after.model.log.value.base?.events).toBe(4001);
    expect(after.model.log.value.rawEvents).toHaveLength(0);
    expect(answersOf(after.model)).toBe(4001);
  });

  it('counts each answer once when it is read again after sealing', async () => {
    const { model: open, idle } = await reopened();
    await idle();
    open.receive({ type: 'reload' });
    await expect.poll(() => open.log.value.rawEvents.length).toBe(1);
    expect(answersOf(open)).toBe(2001);
    await open.append(draft());
    expect(answersOf(open)).toBe(2002);
  });

  it('is folded anew when a sealed answer is undone', async () => {
    await (await reopened()).idle();
    const { model: open } = await reopened();
    await open.append({ type: 'taken back', answered: 'a:7', day: open.today(), at: now });
    await expect.poll(() => answersOf(open)).toBe(2000);
  });

  it('opens even if it cannot be sealed', async () => {
    const broken = createModel({
      forecaster: noForecaster,
      store: { ...store, seal: () => Promise.reject(new Error('no room')) },
      clock,
      channel: { send: () => undefined },
      whenIdle: (work) => void work(),
    });
    await broken.open();
    expect(broken.opening.value.at).toBe('open');
    expect(answersOf(broken)).toBe(2001);
  });
});

function gate(): { readonly opened: Promise<void>; readonly open: () => void } {
  let open = (): void => undefined;
  const opened = new Promise<void>((resolve) => {
    open = resolve;
  });
  return { opened, open: () => open() };
}

function answersOf({ log }: Model): number {
  return log.value.memories.get('p/1')?.answers ?? 0;
}

function draft(): EventDraft {
  return {
    type: 'answered',
    card: 'p/1',
    kind: 'number',
    answer: [2],
    errors: [0],
    outcome: 'pocketed',
    ms: 1000,
    day: model.today(),
    at: now,
  };
}
