/** The folder's header. It tells how to derive the key from the passphrase. It is not secret. */

import * as v from 'valibot';
import { fromBase64Url } from '../bytes/index.ts';
import { Refused } from './refused.ts';

export const KDF = 'PBKDF2-HMAC-SHA-256';
/**
 * OWASP's Password Storage Cheat Sheet (2023) requires 600,000 iterations with SHA-256 (cited from
 * memory).
 */
export const LEAST_ITERATIONS = 600_000;
/**
 * This many iterations take minutes on a phone. A header that asks for more only serves to keep the
 * phone busy.
 */
export const MOST_ITERATIONS = 10_000_000;
export const SALT_BYTES = 32;
/** The nonce, the encrypted word of eleven letters, and its tag, in bytes (vault.ts). */
const CHECK_BYTES = 12 + 11 + 16;
/** The largest header that is read, in bytes: several times the size of a real one. */
export const LARGEST_HEADER = 4096;

export interface Header {
  readonly kind: 'throughline-sync';
  readonly version: 1;
  /** A random id for the contents of this folder. Files from a different vault do not open here. */
  readonly vault: string;
  readonly kdf: typeof KDF;
  readonly iterations: number;
  /** Encoded as base64url. */
  readonly salt: string;
  /**
   * A known word, encrypted with the key and bound to the rest of the header. It reveals a wrong
   * passphrase at once.
   */
  readonly check: string;
}

const base64url = (bytes: number) =>
  v.pipe(
    v.string(),
    v.check((text) => fromBase64Url(text)?.length === bytes),
  );

const shape = v.strictObject({
  kind: v.literal('throughline-sync'),
  version: v.literal(1),
  vault: v.pipe(v.string(), v.regex(/^[0-9a-f]{32}$/)),
  kdf: v.literal(KDF),
  iterations: v.pipe(v.number(), v.safeInteger()),
  salt: base64url(SALT_BYTES),
  check: base64url(CHECK_BYTES),
});

const NEWER = 'The folder was written by a newer Throughline. Update this one first.';
const DAMAGED =
  'The folder’s header (throughline-sync.json) is damaged. If one of your devices still syncs with this folder, remove that file and sync there: it is written again.';
const WEAK =
  'The folder’s header asks for a key that is made too quickly, as someone would who wants to guess your passphrase. It was not used.';
const SLOW =
  'The folder’s header asks for more work than any device of yours would have asked for. It was not used.';

export function formatHeader(header: Header): string {
  return `${JSON.stringify(header, null, 1)}\n`;
}

/** Returns the part of the header that the check authenticates, as text. */
export function claimOf({ check: _, ...claim }: Header): string {
  return JSON.stringify(claim, ['kind', 'version', 'vault', 'kdf', 'iterations', 'salt']);
}

/** @throws Refused if the header is damaged, newer than this version, or weak */
export function parseHeader(text: string): Header {
  const data = parsed(text);
  const { kind, version } = (data ?? {}) as { kind?: unknown; version?: unknown };
  if (kind === 'throughline-sync' && typeof version === 'number' && version > 1)
    throw new Refused('newer', NEWER);
  const result = v.safeParse(shape, data);
  if (!result.success) throw new Refused('header', DAMAGED);
  const { iterations } = result.output;
  if (iterations < LEAST_ITERATIONS) throw new Refused('weak header', WEAK);
  if (iterations > MOST_ITERATIONS) throw new Refused('weak header', SLOW);
  return result.output;
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text) as unknown;
  } catch {
    // The schema refuses null, so the header counts as damaged.
    return null;
  }
}
