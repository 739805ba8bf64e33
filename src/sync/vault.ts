/**
 * Encryption: WebCrypto and nothing else. A key from the passphrase (PBKDF2, RFC 8018 §5.2), files in
 * AES-256-GCM (NIST SP 800-38D) with a random nonce of 96 bits each. At 2³² files under one key a
 * nonce comes twice with a chance of 2⁻³² (SP 800-38D §8.3); a device writes a few a day.
 */

import { type Bytes, fromBase64Url, joinBytes, toBase64Url, toHex } from '../bytes/index.ts';
import { claimOf, type Header, KDF, LEAST_ITERATIONS, SALT_BYTES } from './header.ts';
import { Refused } from './refused.ts';

/** Of a file: three letters and the version of the format. */
const MAGIC = [0x54, 0x4c, 0x53, 0x01] as const;
const NONCE = 12;
const TAG = 16;
/** What the header's check is, encrypted. */
const CHECKED = 'throughline';

const NO_CRYPTO =
  'This browser cannot encrypt on this address. Open Throughline by an address that begins with https://.';
const WRONG =
  'The passphrase does not fit this folder, or the folder’s header was changed. Nothing was read or sent.';
const NEWER = 'A file in the folder was written by a newer Throughline. Update this one first.';

/** Equal passphrases are equal bytes on every keyboard (RFC 8265 §4.2: NFC). */
function bytesOfPassphrase(passphrase: string): Bytes {
  return new TextEncoder().encode(passphrase.normalize('NFC'));
}

/** A key that encrypts and decrypts and cannot be read out, not even by this page. */
export async function deriveKey(
  passphrase: string,
  salt: Bytes,
  iterations: number,
): Promise<CryptoKey> {
  const crypto = subtle();
  const secret = bytesOfPassphrase(passphrase);
  const base = await crypto.importKey('raw', secret, 'PBKDF2', false, ['deriveKey']);
  const how = { name: 'PBKDF2', hash: 'SHA-256', salt, iterations };
  const what = { name: 'AES-GCM', length: 256 };
  return crypto.deriveKey(how, base, what, false, ['encrypt', 'decrypt']);
}

/** A new folder's header, and its key. */
export async function newVault(
  passphrase: string,
): Promise<{ readonly header: Header; readonly key: CryptoKey }> {
  const random = (bytes: number): Bytes => crypto.getRandomValues(new Uint8Array(bytes));
  const salt = random(SALT_BYTES);
  const key = await deriveKey(passphrase, salt, LEAST_ITERATIONS);
  const vault = toHex(random(16));
  const claim = {
    kind: 'throughline-sync',
    version: 1,
    vault,
    kdf: KDF,
    iterations: LEAST_ITERATIONS,
    salt: toBase64Url(salt),
  } as const;
  const about = new TextEncoder().encode(claimOf({ ...claim, check: '' }));
  const check = await encrypted(key, new TextEncoder().encode(CHECKED), about);
  return { header: { ...claim, check: toBase64Url(check) }, key };
}

/** The key of a folder that is there. @throws Refused if the passphrase is another */
export async function keyFor(header: Header, passphrase: string): Promise<CryptoKey> {
  const key = await deriveKey(passphrase, decoded(header.salt), header.iterations);
  const about = new TextEncoder().encode(claimOf(header));
  const check = await decrypted(key, decoded(header.check), about);
  if (!check || new TextDecoder().decode(check) !== CHECKED) throw new Refused('passphrase', WRONG);
  return key;
}

/** A field of a header that `parseHeader` has checked. */
function decoded(text: string): Bytes {
  const bytes = fromBase64Url(text);
  if (!bytes) throw new Error(`not base64url: ${text}`);
  return bytes;
}

/** A file for the folder: it opens in this vault and under this name only. */
export async function sealFile(
  key: CryptoKey,
  vault: string,
  name: string,
  plain: Bytes,
): Promise<Bytes> {
  const body = await encrypted(key, plain, aboutFile(vault, name));
  return joinBytes([Uint8Array.from(MAGIC), body]);
}

/** @throws Refused if it is not what was written under this name */
export async function openFile(
  key: CryptoKey,
  vault: string,
  name: string,
  file: Bytes,
): Promise<Bytes> {
  const [version = 0] = file.slice(3);
  const isOurs = MAGIC.slice(0, 3).every((byte, n) => file[n] === byte);
  if (isOurs && version > MAGIC[3]) throw new Refused('newer', NEWER);
  const plain =
    isOurs && version === MAGIC[3]
      ? await decrypted(key, file.slice(MAGIC.length), aboutFile(vault, name))
      : null;
  if (!plain) throw new Refused('damaged', damagedWords(name));
  return plain;
}

export function damagedWords(name: string): string {
  return `The file ${name} in the folder is damaged, was changed, or belongs under another name. Nothing was taken from it. If you remove it there, your devices send again what was in it.`;
}

function aboutFile(vault: string, name: string): Bytes {
  return new TextEncoder().encode(`throughline-sync/1 ${vault} ${name}`);
}

async function encrypted(key: CryptoKey, plain: Bytes, about: Bytes): Promise<Bytes> {
  const iv = crypto.getRandomValues(new Uint8Array(NONCE));
  const how = { name: 'AES-GCM', iv, additionalData: about, tagLength: TAG * 8 };
  const body = new Uint8Array(await subtle().encrypt(how, key, plain));
  return joinBytes([iv, body]);
}

/** Null if it was not encrypted by this key, about this. */
async function decrypted(key: CryptoKey, whole: Bytes, about: Bytes): Promise<Bytes | null> {
  if (whole.length < NONCE + TAG) return null;
  const iv = whole.slice(0, NONCE);
  const how = { name: 'AES-GCM', iv, additionalData: about, tagLength: TAG * 8 };
  try {
    return new Uint8Array(await subtle().decrypt(how, key, whole.slice(NONCE)));
  } catch (error) {
    if (error instanceof DOMException && error.name === 'OperationError') return null;
    throw error;
  }
}

function subtle(): SubtleCrypto {
  // Not on a page that came without encryption, whatever the types say.
  const { subtle: found } = crypto as Partial<Crypto>;
  if (!found) throw new Refused('no crypto', NO_CRYPTO);
  return found;
}
