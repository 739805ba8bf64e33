/**
 * Encryption, with WebCrypto only. The key is derived from the passphrase (PBKDF2, RFC 8018 §5.2).
 * Files are encrypted with AES-256-GCM (NIST SP 800-38D), each with a random nonce of 96 bits. After
 * 2³² files with one key, the chance that a nonce was used twice is 2⁻³² (SP 800-38D §8.3). A device
 * writes a few files a day.
 */

import { type Bytes, fromBase64Url, joinBytes, toBase64Url, toHex } from '../bytes/index.ts';
import { claimOf, type Header, KDF, LEAST_ITERATIONS, SALT_BYTES } from './header.ts';
import { Refused } from './refused.ts';

/** The start of each file: three letters and the version of the format. */
const MAGIC = [0x54, 0x4c, 0x53, 0x01] as const;
/** The length of the nonce, in bytes. */
const NONCE = 12;
/** The length of the authentication tag, in bytes. */
const TAG = 16;
/** The word that is encrypted as the header's check. */
const CHECKED = 'throughline';

const NO_CRYPTO =
  'This browser cannot encrypt on this address. Open Throughline by an address that begins with https://.';
const WRONG =
  'The passphrase does not fit this folder, or the folder’s header was changed. Nothing was read or sent.';
const NEWER = 'A file in the folder was written by a newer Throughline. Update this one first.';

/**
 * Returns the passphrase in UTF-8. Normalizes it to NFC first, so that it gives the same bytes on every
 * keyboard (RFC 8265 §4.2).
 */
function bytesOfPassphrase(passphrase: string): Bytes {
  return new TextEncoder().encode(passphrase.normalize('NFC'));
}

/** Returns a key that encrypts and decrypts. Not even this app can extract it. */
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

/** Creates the header and the key of a new folder. */
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

/**
 * Returns the key of an existing folder.
 * @throws Refused if the passphrase is wrong
 */
export async function keyFor(header: Header, passphrase: string): Promise<CryptoKey> {
  const key = await deriveKey(passphrase, decoded(header.salt), header.iterations);
  const additionalData = new TextEncoder().encode(claimOf(header));
  const check = await decrypt(key, decoded(header.check), additionalData);
  if (!check || new TextDecoder().decode(check) !== CHECKED) throw new Refused('passphrase', WRONG);
  return key;
}

/** Decodes a field of a header that `parseHeader` has already checked. */
function decoded(text: string): Bytes {
  const bytes = fromBase64Url(text);
  if (!bytes) throw new Error(`not base64url: ${text}`);
  return bytes;
}

/** Encrypts a file for the folder. The file opens only in this vault and only under this name. */
export async function sealFile(
  key: CryptoKey,
  vault: string,
  name: string,
  plain: Bytes,
): Promise<Bytes> {
  const body = await encrypt(key, plain, fileData(vault, name));
  return joinBytes([Uint8Array.from(MAGIC), body]);
}

/** @throws Refused if `sealFile` cannot have made this file in this vault under this name */
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

/** Returns the additional data that binds a file to its vault and its name. */
function fileData(vault: string, name: string): Bytes {
  return new TextEncoder().encode(`throughline-sync/1 ${vault} ${name}`);
}

async function encrypt(key: CryptoKey, plain: Bytes, additionalData: Bytes): Promise<Bytes> {
  const iv = crypto.getRandomValues(new Uint8Array(NONCE));
  const algorithm = { name: 'AES-GCM', iv, additionalData, tagLength: TAG * 8 };
  const body = new Uint8Array(await subtle().encrypt(algorithm, key, plain));
  return joinBytes([iv, body]);
}

/** Returns the plain bytes; null if the key or the additional data is not the one used to encrypt. */
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
  // `subtle` is missing on a page that was served without encryption, despite its type.
  const { subtle: found } = crypto as Partial<Crypto>;
  if (!found) throw new Refused('no crypto', NO_CRYPTO);
  return found;
}
