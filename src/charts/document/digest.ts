/**
 * A short digest of a revision's content. Two devices recognize the same revision by it, because
 * its number may differ between them. It is no protection: anyone can forge a revision with the
 * digest of another. But then the forged revision only counts as one that the player already has.
 */

import type { Revision } from './document.ts';

const OFFSET_BASIS = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/** Returns the 64-bit FNV-1a hash (Fowler, Noll & Vo; draft-eastlake-fnv). */
export function fnv1a(bytes: Iterable<number>): bigint {
  let hash = OFFSET_BASIS;
  for (const byte of bytes) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * PRIME);
  return hash;
}

/**
 * Digests are cached because revisions never change, and the editor needs the digests at every
 * keystroke.
 */
const cache = new WeakMap<Revision, string>();

/**
 * Returns a revision's digest as sixteen hexadecimal digits. The revision's number is not part of
 * the digest.
 */
export function digestOf(revision: Revision): string {
  const cached = cache.get(revision);
  if (cached !== undefined) return cached;
  const { number: _, ...content } = revision;
  const digest = digestOfValue(content);
  cache.set(revision, digest);
  return digest;
}

/**
 * Returns a digest of sixteen hexadecimal digits. It is the same for equal values, however they
 * were built.
 */
export function digestOfValue(value: unknown): string {
  return fnv1a(utf16(canonical(value)))
    .toString(16)
    .padStart(16, '0');
}

/**
 * Yields the UTF-16 code units of a text, low byte first. This works for every string, even one
 * with half a character.
 */
export function* utf16(text: string): Iterable<number> {
  for (let n = 0; n < text.length; n++) {
    const unit = text.charCodeAt(n);
    yield unit & 0xff;
    yield unit >> 8;
  }
}

/** Returns JSON with sorted keys. It is the same for equal values, however they were built. */
export function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
