import { gunzipSync, gzipSync } from 'node:zlib';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { pack, unpack } from '../../src/sync/packing.ts';

describe('packing', () => {
  it('is undone by unpacking, and is gzip to zlib', async () => {
    await fc.assert(
      fc.asyncProperty(fc.string({ unit: 'grapheme', maxLength: 400 }), async (text) => {
        const bytes = await pack(text);
        expect(gunzipSync(bytes).toString('utf8')).toBe(text);
        expect(await unpack(bytes)).toBe(text);
      }),
      { numRuns: 50 },
    );
  });

  it('stops at bytes that inflate beyond the bound', async () => {
    // Twenty million zeros in twenty thousand bytes; unpacking stops after the first of them.
    const bomb = Uint8Array.from(gzipSync(Buffer.alloc(20_000_000)));
    expect(bomb.length).toBeLessThan(25_000);
    expect(await unpack(bomb, 100_000)).toBe('too large');
  });

  it('refuses bytes that are cut off, not gzip, or not UTF-8', async () => {
    const whole = await pack('It plays short today.');
    expect(await unpack(whole.slice(0, -6))).toBeNull();
    expect(await unpack(new Uint8Array([1, 2, 3]))).toBeNull();
    const spoiled = whole.slice();
    spoiled[spoiled.length - 6] = (spoiled[spoiled.length - 6] ?? 0) ^ 1;
    expect(await unpack(spoiled)).toBeNull();
    expect(await unpack(Uint8Array.from(gzipSync(Buffer.from([0xff, 0xfe]))))).toBeNull();
  });
});
