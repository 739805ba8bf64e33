/** The oracle is Node's zlib, called directly and not through the streams. */

import { deflateRawSync, gunzipSync, gzipSync, inflateRawSync } from 'node:zlib';
import fc from 'fast-check';
import { afterEach, describe, expect, it, vi } from 'vitest';
import { type Bytes, deflate, inflate } from '../../src/bytes/index.ts';

const FORMATS = [
  ['deflate-raw', deflateRawSync, inflateRawSync],
  ['gzip', gzipSync, gunzipSync],
] as const;
const MOST = 100_000;

const anyBytes = fc.oneof(
  fc.uint8Array({ maxLength: 3000 }),
  fc.string({ unit: 'grapheme', maxLength: 400 }).map((text) => new TextEncoder().encode(text)),
);

const own = (bytes: Uint8Array): Bytes => Uint8Array.from(bytes);

class Refusing {
  constructor(format: string) {
    throw new TypeError(`unsupported format ${format}`);
  }
}

afterEach(() => {
  vi.unstubAllGlobals();
});

describe.each(FORMATS)('%s', (format, pack, unpack) => {
  it('is undone by inflating, and reads the same with zlib', async () => {
    await fc.assert(
      fc.asyncProperty(anyBytes, async (bytes) => {
        const packed = await deflate(own(bytes), format);
        if (!packed) throw new Error('not supported');
        expect([...unpack(packed)]).toEqual([...bytes]);
        expect(await inflate(packed, format, MOST)).toEqual(own(bytes));
      }),
      { numRuns: 50 },
    );
  });

  it('inflates what zlib packed', async () => {
    await fc.assert(
      fc.asyncProperty(anyBytes, async (bytes) => {
        expect(await inflate(own(pack(bytes)), format, MOST)).toEqual(own(bytes));
      }),
      { numRuns: 50 },
    );
  });

  it('inflates exactly the bound, and refuses a byte more', async () => {
    const packed = own(pack(Buffer.alloc(5000, 'chalk ')));
    expect(await inflate(packed, format, 5000)).toHaveLength(5000);
    expect(await inflate(packed, format, 4999)).toBe('too large');
  });

  it('stops in the middle of a bomb', async () => {
    // Twenty million zeros, whose end is damaged: whoever reads that far reports it.
    const bomb = own(pack(Buffer.alloc(20_000_000)));
    expect(bomb.length).toBeLessThan(25_000);
    expect(await inflate(bomb.fill(0xff, -40), format, MOST)).toBe('too large');
  });

  it('refuses malformed bytes', async () => {
    const whole = own(pack(Buffer.from('It plays short today.')));
    expect(await inflate(whole.slice(0, -6), format, MOST)).toBe('malformed');
    expect(await inflate(new Uint8Array([7, 7, 7]), format, MOST)).toBe('malformed');
    expect(await inflate(new Uint8Array(), format, MOST)).toBe('malformed');
  });

  it('inflates or refuses any bytes, and never throws', async () => {
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 200 }), async (bytes) => {
        const inflated = await inflate(own(bytes), format, MOST);
        if (typeof inflated !== 'string') expect([...inflated]).toEqual([...unpack(bytes)]);
      }),
      { numRuns: 200 },
    );
  });
});

describe('a browser without these streams', () => {
  it.each([
    ['has none', undefined],
    ['knows another format only', Refusing],
  ])('that %s is told apart from bytes that are malformed', async (_, stream) => {
    vi.stubGlobal('CompressionStream', stream);
    vi.stubGlobal('DecompressionStream', stream);
    expect(await deflate(new Uint8Array(3), 'deflate-raw')).toBeNull();
    expect(await inflate(new Uint8Array(3), 'deflate-raw', MOST)).toBe('unsupported');
  });
});
