/**
 * Encryption, by WebCrypto alone: a key from the passphrase (PBKDF2, RFC 8018 §5.2), and files in
 * AES-256-GCM (NIST SP 800-38D), each with a random nonce of 96 bits. After 2³² files under one key,
 * the chance that a nonce was used twice is 2⁻³² (SP 800-38D §8.3); a device writes a few files a day.
 */

import { type Bytes, fromBase64Url, joinBytes, toBase64Url, toHex } from '../bytes/index.ts';
import { claimOf, type Header, KDF, LEAST_ITERATIONS, SALT_BYTES } from './header.ts';
import { Refused } from './refused.ts';

/** A file begins with three letters and the version of the format. */
const MAGIC = [0x54, 0x4c, 0x53, 0x01] as const;
/** Bytes. */
const NONCE = 12;
/** Bytes. */
const TAG = 16;
/** The header's check is this word, encrypted. */
const CHECKED = 'throughline';

const NO_CRYPTO =
  'This browser cannot encrypt on this address. Open Throughline by an address that begins with https://.';
const WRONG =
  'The passphrase does not fit this folder, or the folder’s header was changed. Nothing was read or sent.';
const NEWER = 'A file in the folder was written by a newer Throughline. Update this one first.';

/** NFC, so that a passphrase gives the same bytes on every keyboard (RFC 8265 §4.2). */
function bytesOfPassphrase(passphrase: string): Bytes {
  return new TextEncoder().encode(passphrase.normalize('NFC'));
}

/** A key that encrypts and decrypts, and that not even this page can extract. */
export async function deriveKey(
  passphrase: string,
  salt: Bytes,
  iterations: number,
): Promise<CryptoKey> {
  const crypto = subtle();
  const secret = bytesOfPassphrase(passphrase);
  const base = await crypto.importKey('raw', secret, 'PBKDF2', false, ['deriveKey']);
  const derivation = { name: 'PBKDF2', hash: 'SHA-256', salt, iterations };
  const algorithm = { name: 'AES-GCM', length: 256 };
  return crypto.deriveKey(derivation, base, algorithm, false, ['encrypt', 'decrypt']);
}

/** The header and the key of a new folder. */
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
  const additionalData = new TextEncoder().encode(claimOf({ ...claim, check: '' }));
  const check = await encrypt(key, new TextEncoder().encode(CHECKED), additionalData);
  return { header: { ...claim, check: toBase64Url(check) }, key };
}

/** The key of an existing folder. @throws Refused if the passphrase is wrong */
export async function keyFor(header: Header, passphrase: string): Promise<CryptoKey> {
  const key = await deriveKey(passphrase, decoded(header.salt), header.iterations);
  const additionalData = new TextEncoder().encode(claimOf(header));
  const check = await decrypt(key, decoded(header.check), additionalData);
  if (!check || new TextDecoder().decode(check) !== CHECKED) throw new Refused('passphrase', WRONG);
  return key;
}

/** A field of a header that `parseHeader` has checked. */
function decoded(text: string): Bytes {
  const bytes = fromBase64Url(text);
  if (!bytes) throw new Error(`not base64url: ${text}`);
  return bytes;
}

/** Encrypts a file for the folder. It opens in this vault and under this name only. */
export async function sealFile(
  key: CryptoKey,
  vault: string,
  name: string,
  plain: Bytes,
): Promise<Bytes> {
  const body = await encrypt(key, plain, fileData(vault, name));
  return joinBytes([Uint8Array.from(MAGIC), body]);
}

/** @throws Refused if it is not what `sealFile` made in this vault under this name */
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
      ? await decrypt(key, file.slice(MAGIC.length), fileData(vault, name))
      : null;
  if (!plain) throw new Refused('damaged', damagedWords(name));
  return plain;
}

export function damagedWords(name: string): string {
  return `The file ${name} in the folder is damaged, was changed, or belongs under another name. Nothing was taken from it. If you remove it there, your devices send again what was in it.`;
}

/** Binds a file to its vault and its name. */
function fileData(vault: string, name: string): Bytes {
  return new TextEncoder().encode(`throughline-sync/1 ${vault} ${name}`);
}

async function encrypt(key: CryptoKey, plain: Bytes, additionalData: Bytes): Promise<Bytes> {
  const iv = crypto.getRandomValues(new Uint8Array(NONCE));
  const algorithm = { name: 'AES-GCM', iv, additionalData, tagLength: TAG * 8 };
  const body = new Uint8Array(await subtle().encrypt(algorithm, key, plain));
  return joinBytes([iv, body]);
}

/** Null unless it was encrypted under this key with this additional data. */
async function decrypt(key: CryptoKey, whole: Bytes, additionalData: Bytes): Promise<Bytes | null> {
  if (whole.length < NONCE + TAG) return null;
  const iv = whole.slice(0, NONCE);
  const algorithm = { name: 'AES-GCM', iv, additionalData, tagLength: TAG * 8 };
  try {
    return new Uint8Array(await subtle().decrypt(algorithm, key, whole.slice(NONCE)));
  } catch (error) {
    if (error instanceof DOMException && error.name === 'OperationError') return null;
    throw error;
  }
}

function subtle(): SubtleCrypto {
  // Missing, whatever the types say, on a page that was served without encryption.
  const { subtle: found } = crypto as Partial<Crypto>;
  if (!found) throw new Refused('no crypto', NO_CRYPTO);
  return found;
}
