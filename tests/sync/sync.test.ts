/** Several devices and one folder: what comes in and what is sent. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  HARBOUR_LANE,
  lastRevision,
  toDecimal,
} from '../../src/charts/index.ts';
import { foldLog } from '../../src/scheduler/index.ts';
import { createStore } from '../../src/store/index.ts';
import { statusOf, sync } from '../../src/sync/index.ts';
import { HEADER_NAME, newWriter } from '../../src/sync/names.ts';
import { historyArb, shuffled } from '../scheduler/histories.ts';
import { plain } from '../scheduler/plain.ts';
import { answersOf, connected, type Device, edited, heldOn, newcomer, put } from './devices.ts';

describe('a sync', () => {
  it('makes two devices equal, and then has nothing to do', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 5), [HARBOUR_LANE]);
    await put(two, answersOf('b', 0, 7));
    expect((await statusOf(one.store))?.waiting).toBe(5);
    expect(await sync(one)).toEqual({ received: 0, charts: [], sent: 5 });
    expect(await sync(two)).toEqual({ received: 5, charts: [HARBOUR_LANE.name], sent: 7 });
    expect(await sync(one)).toEqual({ received: 7, charts: [], sent: 0 });
    expect(await heldOn(one)).toEqual(await heldOn(two));
    const before = [...folder.files.keys()];
    folder.asked.length = 0;
    expect(await sync(two)).toEqual({ received: 0, charts: [], sent: 0 });
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

  it('joins a chart that both continued, and tells both', async () => {
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

  it('keeps different charts under one id apart, and says so', async () => {
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

  it('does not bring back a chart that the player removed here', async () => {
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

  it('takes over settings only on a device without an answer', async () => {
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

  it('recovers what the folder has if the device’s list of files is lost', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 5));
    await put(two, answersOf('b', 0, 5));
    for (const device of [one, two, one]) await sync(device);
    const state = await one.store.loadState();
    await one.store.saveState({ ...(state as object), files: 'spoiled', writer: newWriter() });
    const before = folder.files.size;
    expect(await sync(one)).toEqual({ received: 0, charts: [], sent: 0 });
    expect(folder.files.size).toBe(before);
  });

  it('continues wherever it was cut off', async () => {
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

  it('keeps the folder short and complete', async () => {
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
    // Seventeen small files, the one that replaces them, and the header.
    expect(most).toBeLessThanOrEqual(19);
    await sync(two);
    expect(await heldOn(two)).toEqual(await heldOn(one));
    // A device that connects later finds everything.
    const third = await newcomer(folder);
    await sync(third);
    expect(await heldOn(third)).toEqual(await heldOn(one));
  });

  it('sends a long log in several files', async () => {
    const { folder, devices } = await connected(2);
    const [one, two] = devices as [Device, Device];
    await put(one, answersOf('a', 0, 20_500));
    await sync(one);
    expect(folder.files.size).toBe(3);
    await sync(two);
    expect((await heldOn(two)).ids).toHaveLength(20_500);
  });
});

/** Parts of a history on each device, as backups and earlier syncs may have left them. */
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
    'of %i devices end in one state, however their syncs interleave',
    async (count) => {
      await fc.assert(
        fc.asyncProperty(anyShares, async ({ events, on, edits, order, seed }) => {
          const { devices } = await connected(count);
          const at = (n: number) => devices[n % count] as Device;
          for (const device of devices) await put(device, [], [HARBOUR_LANE]);
          // Each event is on at least one device.
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
            // Web Locks allow one sync at a time on a device.
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
