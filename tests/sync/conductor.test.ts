/** Several devices and one folder: what comes in, what is sent, and what is refused. */

import 'fake-indexeddb/auto';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  HARBOUR_LANE,
  lastRevision,
  revise,
  toDecimal,
} from '../../src/charts/index.ts';
import { foldLog, type LogEvent } from '../../src/scheduler/index.ts';
import { createStore, DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { connect, disconnect, type Ports, statusOf, sync } from '../../src/sync/index.ts';
import { HEADER_NAME, newWriter } from '../../src/sync/names.ts';
import { pack } from '../../src/sync/packing.ts';
import { parseState, type SyncState } from '../../src/sync/state.ts';
import { sealFile } from '../../src/sync/vault.ts';
import { historyArb, shuffled } from '../scheduler/histories.ts';
import { plain } from '../scheduler/plain.ts';
import { type MemoryFolder, memoryFolder, newDevice, WISH } from './folder.ts';

type Device = ReturnType<typeof newDevice>;

/** Deriving a key takes long by intention: it is done once, and the devices are given it. */
let known: { readonly state: SyncState; readonly header: Uint8Array<ArrayBuffer> };

beforeAll(async () => {
  const folder = memoryFolder();
  const device = newDevice(folder);
  await connect(device, WISH);
  const state = parseState(await device.store.loadState());
  const header = folder.files.get(HEADER_NAME);
  if (!state || !header) throw new Error('not connected');
  known = { state, header };
});

async function connected(count: number): Promise<{ folder: MemoryFolder; devices: Device[] }> {
  const folder = memoryFolder();
  folder.files.set(HEADER_NAME, known.header);
  const devices = Array.from({ length: count }, () => newDevice(folder));
  for (const { store } of devices) await store.saveState({ ...known.state, writer: newWriter() });
  return { folder, devices };
}

function answersOf(device: string, from: number, count: number): readonly LogEvent[] {
  return Array.from({ length: count }, (_, n) => ({
    ...{ type: 'answered', card: 'p/a', kind: 'number', answer: [1.4], errors: [0.01] },
    ...{ outcome: 'pocketed', ms: 900 + n, version: 1, device, seq: from + n },
    ...{ id: `${device}:${from + n}`, day: 20_000 + n, at: (20_000 + n) * 86_400_000 },
  })) as LogEvent[];
}

async function put(
  { store }: Ports,
  events: readonly LogEvent[],
  charts: readonly ChartDocument[] = [],
): Promise<void> {
  const taken = await store.merge(
    { events, charts, settings: DEFAULT_SETTINGS, unread: [] },
    new Set(),
  );
  if (!taken.ok) throw new Error(taken.say);
}

/** What is here, as far as devices have to agree. */
async function heldOn({ store }: Ports) {
  const { events, charts } = await store.contents();
  return {
    ids: events.map(({ id }) => id).sort(),
    state: plain(foldLog(events)),
    charts: charts.map((chart) => JSON.stringify(chart)).sort(),
  };
}

const edited = (chart: ChartDocument, value: number, date: string, why: string) =>
  revise(
    chart,
    {
      ...lastRevision(chart),
      measured: [{ pattern: 'cross-side', start: toDecimal(5), medium: toDecimal(value) }],
    },
    { date, author: 'Player', why },
  );

async function failing(outcome: Promise<unknown>): Promise<{ code?: string; message: string }> {
  return outcome.then(
    () => {
      throw new Error('it was not refused');
    },
    (error: Error & { code?: string }) => error,
  );
}

describe('connecting', () => {
  it('tells an empty folder, begins it when asked to, and lets a second device in', async () => {
    const folder = memoryFolder();
    const [one, two, three] = [newDevice(folder), newDevice(folder), newDevice(folder)];
    expect(await connect(one, { ...WISH, create: false })).toBe('empty');
    expect(folder.files.size).toBe(0);
    expect(await statusOf(one.store)).toBeNull();
    expect(await connect(one, WISH)).toBe('joined');
    expect(await connect(two, { ...WISH, create: false })).toBe('joined');
    const wrong = await failing(connect(three, { ...WISH, passphrase: 'four words of talk' }));
    expect(wrong.code).toBe('passphrase');
    expect(await statusOf(three.store)).toBeNull();
    expect([...folder.files.keys()]).toEqual([HEADER_NAME]);
  });

  it('keeps no passphrase, and a key that cannot be read out', async () => {
    const { key, ...rest } = known.state;
    expect(key.extractable).toBe(false);
    expect(JSON.stringify(rest)).not.toContain('chalk');
    expect(Buffer.from(known.header).toString()).not.toContain('chalk');
  });

  it('does not begin anew where files are and the header is not', async () => {
    const { folder, devices } = await connected(1);
    await put(devices[0] as Device, answersOf('a', 0, 3));
    await sync(devices[0] as Device);
    folder.files.delete(HEADER_NAME);
    expect((await failing(connect(newDevice(folder), WISH))).code).toBe('header');
    // The device that knows it writes it again.
    await sync(devices[0] as Device);
    expect(folder.files.get(HEADER_NAME)).toEqual(known.header);
  });

  it('is forgotten again, with nothing lost', async () => {
    const { folder, devices } = await connected(1);
    const [one] = devices as [Device];
    await put(one, answersOf('a', 0, 3));
    await sync(one);
    await disconnect(one.store);
    expect(await statusOf(one.store)).toBeNull();
    expect(await sync(one)).toBeNull();
    expect((await heldOn(one)).ids).toHaveLength(3);
    expect(folder.files.size).toBe(2);
  });
});

describe('a sync', () => {
  it('brings two devices together, and then has nothing to do', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 5), [HARBOUR_LANE]);
    await put(two, answersOf('b', 0, 7));
    expect((await statusOf(one.store))?.waiting).toBe(5);
    expect(await sync(one)).toEqual({ taken: 0, charts: [], sent: 5 });
    expect(await sync(two)).toEqual({ taken: 5, charts: [HARBOUR_LANE.name], sent: 7 });
    expect(await sync(one)).toEqual({ taken: 7, charts: [], sent: 0 });
    expect(await heldOn(one)).toEqual(await heldOn(two));
    const before = [...folder.files.keys()];
    folder.asked.length = 0;
    expect(await sync(two)).toEqual({ taken: 0, charts: [], sent: 0 });
    expect(folder.asked).toEqual(['list', `read ${HEADER_NAME}`]);
    expect([...folder.files.keys()]).toEqual(before);
    expect(await statusOf(two.store)).toMatchObject({ waiting: 0, failed: null, notes: [] });
  });

  it('sends nothing that can be read without the passphrase', async () => {
    const { folder, devices } = await connected(1);
    await put(devices[0] as Device, answersOf('a', 0, 50), [HARBOUR_LANE]);
    await sync(devices[0] as Device);
    for (const bytes of folder.files.values())
      for (const word of ['answered', 'pocketed', 'Harbour', 'cross-side', 'p/a'])
        expect(Buffer.from(bytes).includes(word)).toBe(false);
  });

  it('joins a chart that both went on with, and tells both of it', async () => {
    const { devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    for (const device of devices) await put(device, [], [HARBOUR_LANE]);
    await put(one, [], [edited(HARBOUR_LANE, 1.1, '2026-11-20', 'On one.')]);
    await put(two, [], [edited(HARBOUR_LANE, 1.3, '2026-11-21', 'On two.')]);
    await sync(one);
    await sync(two);
    await sync(one);
    expect(await heldOn(one)).toEqual(await heldOn(two));
    const { charts } = await one.store.contents();
    const joined = charts[0] ?? HARBOUR_LANE;
    expect(lastRevision(joined).measured[0]?.medium).toBe(toDecimal(1.3));
    expect(joined.revisions.map(({ why }) => why)).toContain('On one.');
    for (const device of devices)
      expect((await statusOf(device.store))?.notes.join()).toContain('Both had changed one value');
  });

  it('keeps a chart apart that is another under the same id, and says so', async () => {
    const { devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    const other: ChartDocument = { ...HARBOUR_LANE, basis: 'measured' };
    await put(one, [], [HARBOUR_LANE]);
    await put(two, [], [other]);
    await sync(one);
    await sync(two);
    await sync(one);
    expect((await one.store.contents()).charts).toEqual([HARBOUR_LANE]);
    expect((await two.store.contents()).charts).toEqual([other]);
    expect((await statusOf(two.store))?.notes.join()).toContain(
      'another chart under the same name',
    );
  });

  it('leaves a chart removed that the player removed here', async () => {
    const { devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    const extra: ChartDocument = { ...HARBOUR_LANE, id: 'extra', name: 'Extra' };
    await put(one, [], [HARBOUR_LANE, extra]);
    await sync(one);
    await sync(two);
    const page = createStore({ name: two.name, newDeviceId: () => 'b' });
    await page.removeChart('extra');
    await put(one, [], [edited(extra, 1.2, '2026-11-22', 'Later.')]);
    await sync(one);
    await sync(two);
    expect((await two.store.contents()).charts).toEqual([HARBOUR_LANE]);
    expect((await one.store.contents()).charts).toHaveLength(2);
  });

  it('takes the settings of another device only where nothing was answered yet', async () => {
    const { devices } = await connected(3);
    const [one, two, fresh] = devices as [Device, Device, Device];
    await put(one, answersOf('a', 0, 1));
    const page = createStore({ name: one.name, newDeviceId: () => 'a' });
    await page.saveSettings({ author: 'A player' });
    await sync(one);
    await sync(fresh);
    expect((await fresh.store.contents()).settings.author).toBe('A player');
    await put(two, answersOf('b', 0, 1));
    await sync(two);
    expect((await two.store.contents()).settings.author).toBe('');
  });

  it('finds out anew what the folder has if what it knew is lost', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 5));
    await put(two, answersOf('b', 0, 5));
    for (const device of [one, two, one]) await sync(device);
    const state = await one.store.loadState();
    await one.store.saveState({ ...(state as object), files: 'spoiled', writer: newWriter() });
    const before = folder.files.size;
    expect(await sync(one)).toEqual({ taken: 0, charts: [], sent: 0 });
    expect(folder.files.size).toBe(before);
  });

  it('goes on wherever it was cut off', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 5), [HARBOUR_LANE]);
    for (let cut = 1; cut < 30; cut++) {
      await put(two, answersOf('b', 5 * cut, 5));
      for (const device of [one, two]) {
        folder.cutAt = 1 + (cut % 7);
        await sync(device).catch(() => undefined);
      }
      folder.cutAt = null;
    }
    for (const device of [one, two, one, two]) await sync(device);
    expect(await heldOn(one)).toEqual(await heldOn(two));
    expect((await heldOn(one)).ids).toHaveLength(5 + 5 * 29);
  });

  it('keeps the folder short, and what is in it whole', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    let most = 0;
    for (let day = 0; day < 60; day++) {
      await put(one, answersOf('a', 2 * day, 2), day === 0 ? [HARBOUR_LANE] : []);
      await sync(one);
      most = Math.max(most, folder.files.size);
      if (day % 20 === 19) {
        await sync(two);
        expect((await statusOf(two.store))?.notes.join()).not.toContain('gone');
      }
    }
    // Seventeen small ones, the one that takes their place, and the header.
    expect(most).toBeLessThanOrEqual(19);
    await sync(two);
    expect(await heldOn(two)).toEqual(await heldOn(one));
    // A device that comes later finds all of it.
    const third = newDevice(folder);
    await third.store.saveState({ ...known.state, writer: newWriter() });
    await sync(third);
    expect(await heldOn(third)).toEqual(await heldOn(one));
  });

  it('sends a long log in pieces', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 20_500));
    await sync(one);
    expect(folder.files.size).toBe(3);
    await sync(two);
    expect((await heldOn(two)).ids).toHaveLength(20_500);
  });
});

describe('a folder that went back in time', () => {
  it('is told, and gets what it lacks again; nothing is removed here', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 5), [HARBOUR_LANE]);
    await put(two, answersOf('b', 0, 7));
    const early = new Map(folder.files);
    for (const device of [one, two, one]) await sync(device);
    const before = await heldOn(one);
    folder.files.clear();
    for (const [name, bytes] of early) folder.files.set(name, bytes);
    await sync(one);
    expect((await statusOf(one.store))?.notes.join()).toContain('12 entries of the log');
    expect(await heldOn(one)).toEqual(before);
    // All of it, also what the other device had sent.
    const third = newDevice(folder);
    await third.store.saveState({ ...known.state, writer: newWriter() });
    await sync(third);
    expect(await heldOn(third)).toEqual(before);
    await sync(one);
    expect((await statusOf(one.store))?.notes).toEqual([]);
  });

  it('and lost its header gets that again, too', async () => {
    const { folder, devices } = await connected(1);
    const [one] = devices as [Device];
    await put(one, answersOf('a', 0, 5));
    await sync(one);
    folder.files.clear();
    await sync(one);
    expect(folder.files.get(HEADER_NAME)).toEqual(known.header);
    expect(folder.files.size).toBe(2);
  });
});

describe('a hostile folder', () => {
  const text = async (events: readonly LogEvent[]) =>
    pack(
      formatBackup(
        { events, charts: [], settings: DEFAULT_SETTINGS, unread: [] },
        '2026-11-30T00:00:00.000Z',
      ),
    );
  const sealed = async (name: string, bytes: Uint8Array<ArrayBuffer>) =>
    sealFile(known.state.key, known.state.header.vault, name, bytes);
  const NAME = 'zzzzzzzzzz-00000001.tls';
  const bomb = () => pack(' '.repeat(70_000_000));
  const garbage = () => new Uint8Array(new ArrayBuffer(500)).fill(7);

  it.each([
    ['a file of garbage', async () => garbage(), 'damaged'],
    ['an empty file', async () => new Uint8Array(), 'damaged'],
    [
      'a file under another name',
      async () => sealed('zzzzzzzzzz-00000002.tls', await text(answersOf('z', 0, 1))),
      'damaged',
    ],
    ['a bomb by one who has the key', async () => sealed(NAME, await bomb()), 'too large'],
    ['no gzip by one who has the key', async () => sealed(NAME, garbage()), 'damaged'],
    ['no backup by one who has the key', async () => sealed(NAME, await pack('{}')), 'damaged'],
    [
      'another story of an answer',
      async () => sealed(NAME, await text(answersOf('a', 0, 1).map((one) => ({ ...one, at: 1 })))),
      'contradicts',
    ],
  ] as const)('%s is refused, nothing is changed and nothing is sent', async (_, make, code) => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(two, answersOf('b', 0, 3));
    await sync(two);
    await put(one, answersOf('a', 0, 5));
    const before = await heldOn(one);
    folder.files.set(NAME, await make());
    const names = [...folder.files.keys()];
    const error = await failing(sync(one));
    expect(error.code).toBe(code);
    expect(error.message).toMatch(/\.\)?$/);
    expect(await heldOn(one)).toEqual(before);
    expect([...folder.files.keys()]).toEqual(names);
    expect(await statusOf(one.store)).toMatchObject({ failed: error.message, worked: null });
    // Once it is gone, all is well again.
    folder.files.delete(NAME);
    await sync(one);
    expect((await heldOn(one)).ids).toHaveLength(8);
    expect((await statusOf(one.store))?.failed).toBeNull();
  });

  it('with two files swapped is refused', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    for (const from of [0, 3]) {
      await put(one, answersOf('a', from, 3));
      await sync(one);
    }
    const [first = '', second = ''] = [...folder.files.keys()].filter(
      (name) => name !== HEADER_NAME,
    );
    const [a, b] = [folder.files.get(first), folder.files.get(second)];
    if (!a || !b) throw new Error('two files were not written');
    folder.files.set(first, b).set(second, a);
    expect((await failing(sync(two))).code).toBe('damaged');
    expect((await heldOn(two)).ids).toEqual([]);
  });

  it.each([
    ['weakened', (header: string) => header.replace('600000', '1000'), 'weak header'],
    [
      'made to take for ever',
      (header: string) => header.replace('600000', '6000000000'),
      'weak header',
    ],
    [
      'of a newer version',
      (header: string) => header.replace('"version": 1', '"version": 2'),
      'newer',
    ],
    [
      'another one',
      (header: string) => header.replace(/"vault": "../, '"vault": "00'),
      'other header',
    ],
    ['garbage', () => 'garbage', 'header'],
  ])('with a header that is %s is refused', async (_, change, code) => {
    const { folder, devices } = await connected(1);
    const [one] = devices as [Device];
    await put(one, answersOf('a', 0, 5));
    const header = change(new TextDecoder().decode(known.header));
    folder.files.set(HEADER_NAME, new TextEncoder().encode(header));
    expect((await failing(sync(one))).code).toBe(code);
    expect([...folder.files.keys()]).toEqual([HEADER_NAME]);
    const stranger = await failing(connect(newDevice(folder), WISH));
    expect(stranger.code).toBe(code === 'other header' ? 'passphrase' : code);
  });
});

/** Some of a history on each device, as backups and earlier syncs may have left it. */
const anyShares = fc.record({
  events: historyArb,
  on: fc.array(fc.tuple(fc.nat(2), fc.nat(15)), { maxLength: 30 }),
  edits: fc.array(
    fc.record({ device: fc.nat(2), value: fc.constantFrom(1, 1.2, 1.4), day: fc.nat(9) }),
    { maxLength: 5 },
  ),
  order: fc.array(fc.tuple(fc.nat(2), fc.boolean()), { maxLength: 8 }),
  seed: fc.nat(),
});

describe('any histories and edits', () => {
  it.each([2, 3])(
    'of %i devices come to one state, however their syncs interleave',
    async (count) => {
      await fc.assert(
        fc.asyncProperty(anyShares, async ({ events, on, edits, order, seed }) => {
          const { devices } = await connected(count);
          const at = (n: number) => devices[n % count] as Device;
          for (const device of devices) await put(device, [], [HARBOUR_LANE]);
          // Each event is on one device at least.
          const places = [...events.map((_, n) => [n + seed, n] as const), ...on];
          for (const [device, n] of places) {
            const event = events[n];
            if (event) await put(at(device), [event]);
          }
          const underWay: Promise<unknown>[] = [];
          for (const [n, [device, both]] of order.entries()) {
            const edit = edits[n];
            if (edit) {
              const { charts } = await at(edit.device).store.contents();
              const [chart = HARBOUR_LANE] = charts;
              const next = edited(chart, edit.value, `2026-11-1${edit.day}`, `Edit ${n}.`);
              await put(at(edit.device), [], [next]);
            }
            // One sync at a time on a device: Web Locks see to it.
            await Promise.all(underWay.splice(0));
            underWay.push(sync(at(device)));
            if (both) underWay.push(sync(at(device + 1)));
          }
          await Promise.all(underWay);
          for (const round of [1, 2])
            for (const device of shuffled(devices, seed + round)) await sync(device);
          const [one, ...others] = await Promise.all(devices.map(heldOn));
          for (const other of others) expect(other).toEqual(one);
          expect(one?.ids).toEqual(events.map(({ id }) => id).sort());
          expect(one?.state).toEqual(plain(foldLog(events)));
        }),
        { numRuns: 25 },
      );
    },
  );
});
