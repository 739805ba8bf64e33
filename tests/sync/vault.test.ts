/** Encryption, compared with standards and an independent implementation (node:crypto, OpenSSL). */

import { createCipheriv, createDecipheriv, pbkdf2Sync } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import { toBase64Url } from '../../src/bytes/index.ts';
import {
  claimOf,
  formatHeader,
  type Header,
  LEAST_ITERATIONS,
  MOST_ITERATIONS,
  parseHeader,
} from '../../src/sync/header.ts';
import { Refused } from '../../src/sync/refused.ts';
import { deriveKey, keyFor, newVault, openFile, sealFile } from '../../src/sync/vault.ts';

const hex = (bytes: Uint8Array) => Buffer.from(bytes).toString('hex');
const bytes = (text: string) => Uint8Array.from(Buffer.from(text, 'hex'));
const ascii = (text: string) => new TextEncoder().encode(text);

/** RFC 7914 §11, PBKDF2-HMAC-SHA-256: the first 32 of 64 bytes, which are the first block. */
const PBKDF2 = [
  ['passwd', 'salt', 1, '55ac046e56e3089fec1691c22544b605f94185216dde0465e68b9d57c20dacbc'],
  ['Password', 'NaCl', 80_000, '4ddcd8f60b98be21830cee5ef22701f9641a4418d04c0414aeff08876b34ab56'],
] as const;

/** McGrew & Viega, The Galois/Counter Mode of Operation (2005), Test Case 16, as NIST validates by. */
const GCM = {
  key: 'feffe9928665731c6d6a8f9467308308feffe9928665731c6d6a8f9467308308',
  iv: 'cafebabefacedbaddecaf888',
  plain:
    'd9313225f88406e5a55909c5aff5269a86a7a9531534f7da2e4c303d8a318a721c3c0c95956809532fcf0e2449a6b525b16aedf5aa0de657ba637b39',
  about: 'feedfacedeadbeeffeedfacedeadbeefabaddad2',
  cipher:
    '522dc1f099567d07f47f37a32a84427d643a8cdcbfe5c0c97598a2bd2555d1aa8cb08e48590dbb3da7b08b1056828838c5f61e6393ba7a0abcc9f662',
  tag: '76fc6ece0f4e1768cddf8853bb2d551b',
};

const NAME = 'abcdefghij-00000001.tls';

describe('the independent implementation', () => {
  it('agrees with the published vectors', () => {
    for (const [secret, salt, rounds, key] of PBKDF2)
      expect(hex(pbkdf2Sync(secret, salt, rounds, 32, 'sha256'))).toBe(key);
    const cipher = createCipheriv('aes-256-gcm', bytes(GCM.key), bytes(GCM.iv));
    cipher.setAAD(bytes(GCM.about));
    expect(hex(cipher.update(bytes(GCM.plain)))).toBe(GCM.cipher);
    cipher.final();
    expect(hex(cipher.getAuthTag())).toBe(GCM.tag);
  });
});

describe('a key', () => {
  it.each(PBKDF2)('of %s and %s is the published one', async (secret, salt, rounds, expected) => {
    const key = await deriveKey(secret, ascii(salt), rounds);
    const file = await sealFile(key, 'v', NAME, ascii('It plays short.'));
    expect(opened(file, expected, 'v', NAME)).toBe('It plays short.');
  });

  it('cannot be extracted', async () => {
    const key = await deriveKey('a passphrase', ascii('salt'), 1);
    expect(key.extractable).toBe(false);
    await expect(crypto.subtle.exportKey('raw', key)).rejects.toThrow();
  });

  it('is the same however an accent is typed', async () => {
    const one = await deriveKey('caf\u00e9 am Kai', ascii('salt'), 1);
    const other = await deriveKey('cafe\u0301 am Kai', ascii('salt'), 1);
    const file = await sealFile(one, 'v', NAME, ascii('x'));
    expect(hex(await openFile(other, 'v', NAME, file))).toBe('78');
  });
});

describe('a file', () => {
  it('is read if the independent implementation wrote it', async () => {
    const secret = pbkdf2Sync('p', 'salt', 1, 32, 'sha256');
    const cipher = createCipheriv('aes-256-gcm', secret, bytes(GCM.iv));
    cipher.setAAD(ascii(`throughline-sync/1 v ${NAME}`));
    const body = Buffer.concat([cipher.update('Plays long.'), cipher.final()]);
    const file = Buffer.concat([
      Buffer.from('TLS\x01', 'latin1'),
      bytes(GCM.iv),
      body,
      cipher.getAuthTag(),
    ]);
    const key = await deriveKey('p', ascii('salt'), 1);
    const plain = await openFile(key, 'v', NAME, Uint8Array.from(file));
    expect(new TextDecoder().decode(plain)).toBe('Plays long.');
  });

  it('has a nonce of its own', async () => {
    const key = await deriveKey('p', ascii('salt'), 1);
    const files = await Promise.all(
      Array.from({ length: 50 }, () => sealFile(key, 'v', NAME, ascii('same'))),
    );
    expect(new Set(files.map((file) => hex(file.slice(4, 16)))).size).toBe(50);
  });

  it('opens only whole, under its own name, in its own vault, by its own key', async () => {
    const key = await deriveKey('p', ascii('salt'), 1);
    const other = await deriveKey('q', ascii('salt'), 1);
    const file = await sealFile(key, 'v', NAME, ascii('It plays short.'));
    await refused(openFile(key, 'v', 'abcdefghij-00000002.tls', file), 'damaged');
    await refused(openFile(key, 'w', NAME, file), 'damaged');
    await refused(openFile(other, 'v', NAME, file), 'damaged');
    await refused(openFile(key, 'v', NAME, new Uint8Array()), 'damaged');
    for (let at = 0; at < file.length; at++) {
      const changed = file.slice();
      changed[at] = (changed[at] ?? 0) ^ 1;
      await refused(openFile(key, 'v', NAME, changed), 'damaged');
      await refused(openFile(key, 'v', NAME, file.slice(0, at)), 'damaged');
    }
    const newer = file.slice();
    newer[3] = 2;
    await refused(openFile(key, 'v', NAME, newer), 'newer');
  });
});

describe('a folder’s header', () => {
  it('gives the key to the right passphrase, and to no other', async () => {
    const { header, key } = await newVault('four words of chalk');
    const again = await keyFor(parseHeader(formatHeader(header)), 'four words of chalk');
    const file = await sealFile(key, header.vault, NAME, ascii('x'));
    expect(await openFile(again, header.vault, NAME, file)).toEqual(ascii('x'));
    await refused(keyFor(header, 'four words of Chalk'), 'passphrase');
    // Whatever changes in the header, the check fails.
    await refused(
      keyFor({ ...header, vault: '0'.repeat(32) }, 'four words of chalk'),
      'passphrase',
    );
    const salt = toBase64Url(new Uint8Array(32));
    await refused(keyFor({ ...header, salt }, 'four words of chalk'), 'passphrase');
    const { check } = (await newVault('four words of chalk')).header;
    await refused(keyFor({ ...header, check }, 'four words of chalk'), 'passphrase');
    // node:crypto computes the same check.
    const secret = pbkdf2Sync(
      'four words of chalk',
      Buffer.from(header.salt, 'base64url'),
      600_000,
      32,
      'sha256',
    );
    const whole = Buffer.from(header.check, 'base64url');
    const plain = createDecipheriv('aes-256-gcm', secret, whole.slice(0, 12));
    plain.setAAD(ascii(claimOf(header)));
    plain.setAuthTag(whole.slice(-16));
    expect(plain.update(whole.slice(12, -16)).toString()).toBe('throughline');
    plain.final();
  });

  const sound: Header = {
    kind: 'throughline-sync',
    version: 1,
    vault: 'a'.repeat(32),
    kdf: 'PBKDF2-HMAC-SHA-256',
    iterations: LEAST_ITERATIONS,
    salt: toBase64Url(new Uint8Array(32)),
    check: toBase64Url(new Uint8Array(39)),
  };

  it.each([
    ['as it is', {}, null],
    ['more iterations', { iterations: MOST_ITERATIONS }, null],
    ['fewer iterations', { iterations: LEAST_ITERATIONS - 1 }, 'weak header'],
    ['one iteration', { iterations: 1 }, 'weak header'],
    ['absurdly many iterations', { iterations: MOST_ITERATIONS + 1 }, 'weak header'],
    ['iterations that are text', { iterations: '600000' }, 'header'],
    ['half an iteration', { iterations: 600_000.5 }, 'header'],
    ['a newer version', { version: 2, kdf: 'something else' }, 'newer'],
    ['another key derivation', { kdf: 'MD5' }, 'header'],
    ['a short salt', { salt: 'AAAA' }, 'header'],
    ['a salt that is not base64url', { salt: `${'A'.repeat(42)}+` }, 'header'],
    ['a check of another length', { check: 'AAAA' }, 'header'],
    ['a vault of another form', { vault: '../../' }, 'header'],
    ['an extra field', { more: true }, 'header'],
    ['another kind', { kind: 'throughline-chart' }, 'header'],
  ] as const)('with %s', (_, change, code) => {
    const text = formatHeader({ ...sound, ...change } as Header);
    if (code === null) expect(parseHeader(text)).toEqual({ ...sound, ...change });
    else expect(() => parseHeader(text)).toThrow(expect.objectContaining({ code }));
  });

  it('is damaged if it is not JSON', () => {
    for (const text of ['', '{', 'null', '[]', '"x"', '{"__proto__":{"kind":"throughline-sync"}}'])
      expect(() => parseHeader(text)).toThrow(expect.objectContaining({ code: 'header' }));
  });
});

async function refused(outcome: Promise<unknown>, code: string): Promise<void> {
  const error = await outcome.then(
    () => null,
    (why: unknown) => why,
  );
  expect(error).toBeInstanceOf(Refused);
  expect((error as Refused).code).toBe(code);
}

/** Opens a file by node:crypto, as docs/design/sync.md describes the format. */
function opened(file: Uint8Array, key: string, vault: string, name: string): string {
  const plain = createDecipheriv('aes-256-gcm', bytes(key), file.slice(4, 16));
  plain.setAAD(ascii(`throughline-sync/1 ${vault} ${name}`));
  plain.setAuthTag(file.slice(-16));
  return Buffer.concat([plain.update(file.slice(16, -16)), plain.final()]).toString();
}
