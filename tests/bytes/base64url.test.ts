/** The oracle is Node's Buffer, which writes base64url and hex by code of its own. */

import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromBase64Url, joinBytes, toBase64Url, toHex } from '../../src/bytes/index.ts';

const anyBytes = fc.uint8Array({ maxLength: 200 });

describe('base64url', () => {
  // RFC 4648 §10, without the padding; §5 replaces + and /.
  it.each([
    ['', ''],
    ['f', 'Zg'],
    ['fo', 'Zm8'],
    ['foo', 'Zm9v'],
    ['foob', 'Zm9vYg'],
    ['fooba', 'Zm9vYmE'],
    ['foobar', 'Zm9vYmFy'],
    ['\xfb\xff\xfe', '-__-'],
  ])('writes %j as %s', (text, code) => {
    const bytes = Uint8Array.from(text, (letter) => letter.charCodeAt(0));
    expect(toBase64Url(bytes)).toBe(code);
    expect(fromBase64Url(code)).toEqual(bytes);
  });

  it('round-trips any bytes, and writes what Node writes', () => {
    fc.assert(
      fc.property(anyBytes, (bytes) => {
        const text = toBase64Url(bytes);
        expect(text).toBe(Buffer.from(bytes).toString('base64url'));
        expect(fromBase64Url(text)).toEqual(Uint8Array.from(bytes));
      }),
    );
  });

  it.each([
    ['padding', 'Zg=='],
    ['a letter of plain base64', 'ab+/'],
    ['a space', 'Zm9v Zg'],
    ['a line end', 'Zm9v\n'],
    ['a letter beyond ASCII', 'Zm9é'],
    ['a single letter over', 'Zm9vY'],
    ['bits that no byte uses', 'Zh'],
  ])('refuses %s', (_, text) => {
    expect(fromBase64Url(text)).toBeNull();
  });

  it('reads any text or refuses it, and each bytes from one text only', () => {
    const letters = fc.string({ unit: fc.constantFrom(...'AZaz09-_+/= é'), maxLength: 12 });
    fc.assert(
      fc.property(letters, (text) => {
        const bytes = fromBase64Url(text);
        if (bytes) expect(toBase64Url(bytes)).toBe(text);
        else expect(Buffer.from(text, 'base64url').toString('base64url')).not.toBe(text);
      }),
      { numRuns: 1000 },
    );
  });
});

describe('bytes', () => {
  it('are written in hex as Node writes them', () => {
    fc.assert(
      fc.property(anyBytes, (bytes) => {
        expect(toHex(bytes)).toBe(Buffer.from(bytes).toString('hex'));
      }),
    );
  });

  it('are joined in order, whole', () => {
    fc.assert(
      fc.property(fc.array(anyBytes, { maxLength: 6 }), (parts) => {
        expect([...joinBytes(parts)]).toEqual([...Buffer.concat(parts)]);
      }),
    );
  });
});
