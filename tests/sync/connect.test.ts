import { describe, expect, it } from 'vitest';
import { connect, disconnect, statusOf, sync } from '../../src/sync/index.ts';
import { HEADER_NAME } from '../../src/sync/names.ts';
import { answersOf, connected, type Device, failing, heldOn, KNOWN, put } from './devices.ts';
import { memoryFolder, newDevice, WISH } from './folder.ts';

describe('connecting', () => {
  it('reports an empty folder, sets it up if asked to, and lets a second device in', async () => {
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

  it('stores no passphrase, and a key that cannot be extracted', async () => {
    const { key, ...rest } = KNOWN.state;
    expect(key.extractable).toBe(false);
    expect(JSON.stringify(rest)).not.toContain('chalk');
    expect(Buffer.from(KNOWN.header).toString()).not.toContain('chalk');
  });

  it('does not set up a folder that has files but no header', async () => {
    const { folder, devices } = await connected(1);
    await put(devices[0] as Device, answersOf('a', 0, 3));
    await sync(devices[0] as Device);
    folder.files.delete(HEADER_NAME);
    expect((await failing(connect(newDevice(folder), WISH))).code).toBe('header');
    // A device that knows the header writes it again.
    await sync(devices[0] as Device);
    expect(folder.files.get(HEADER_NAME)).toEqual(KNOWN.header);
  });

  it('ends with disconnecting, which loses nothing', async () => {
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
