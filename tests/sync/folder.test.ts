/** A folder that lost files, or has files and a header that no device of the player wrote. */

import { describe, expect, it } from 'vitest';
import { HARBOUR_LANE } from '../../src/charts/index.ts';
import type { LogEvent } from '../../src/scheduler/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../src/store/index.ts';
import { connect, statusOf, sync } from '../../src/sync/index.ts';
import { HEADER_NAME } from '../../src/sync/names.ts';
import { pack } from '../../src/sync/packing.ts';
import { sealFile } from '../../src/sync/vault.ts';
import {
  answersOf,
  connected,
  type Device,
  failing,
  heldOn,
  KNOWN,
  newcomer,
  put,
} from './devices.ts';
import { newDevice, WISH } from './folder.ts';

describe('a folder that was restored to an earlier state', () => {
  it('is reported and gets again what it lacks; nothing is removed here', async () => {
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
    // All of it, including what the other device had sent.
    const third = await newcomer(folder);
    await sync(third);
    expect(await heldOn(third)).toEqual(before);
    await sync(one);
    expect((await statusOf(one.store))?.notes).toEqual([]);
  });

  it('gets its header again, too, if it was emptied', async () => {
    const { folder, devices } = await connected(1);
    const [one] = devices as [Device];
    await put(one, answersOf('a', 0, 5));
    await sync(one);
    folder.files.clear();
    await sync(one);
    expect(folder.files.get(HEADER_NAME)).toEqual(KNOWN.header);
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
    sealFile(KNOWN.state.key, KNOWN.state.header.vault, name, bytes);
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
    ['a bomb by someone with the key', async () => sealed(NAME, await bomb()), 'too large'],
    ['no gzip by someone with the key', async () => sealed(NAME, garbage()), 'damaged'],
    ['no backup by someone with the key', async () => sealed(NAME, await pack('{}')), 'damaged'],
    [
      'another story of an answer',
      async () => sealed(NAME, await text(answersOf('a', 0, 1).map((one) => ({ ...one, at: 1 })))),
      'contradicts',
    ],
  ] as const)(
    'with %s is refused; nothing is changed and nothing is sent',
    async (_, make, code) => {
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
      // Once the file is gone, syncing works again.
      folder.files.delete(NAME);
      await sync(one);
      expect((await heldOn(one)).ids).toHaveLength(8);
      expect((await statusOf(one.store))?.failed).toBeNull();
    },
  );

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
    const header = change(new TextDecoder().decode(KNOWN.header));
    folder.files.set(HEADER_NAME, new TextEncoder().encode(header));
    expect((await failing(sync(one))).code).toBe(code);
    expect([...folder.files.keys()]).toEqual([HEADER_NAME]);
    const stranger = await failing(connect(newDevice(folder), WISH));
    expect(stranger.code).toBe(code === 'other header' ? 'passphrase' : code);
  });
});
