/**
 * A short name for what a revision says, so that two devices know a revision again without its
 * number, which may differ between them. It protects against nothing: whoever wants to can make
 * another revision of the same digest, and gains that it is taken for one the player has.
 */

import type { Revision } from './document.ts';

const OFFSET_BASIS = 0xcbf29ce484222325n;
const PRIME = 0x100000001b3n;

/** FNV-1a, 64 bit (Fowler, Noll & Vo; draft-eastlake-fnv). */
export function fnv1a(bytes: Iterable<number>): bigint {
  let hash = OFFSET_BASIS;
  for (const byte of bytes) hash = BigInt.asUintN(64, (hash ^ BigInt(byte)) * PRIME);
  return hash;
}

/** Sixteen hexadecimal digits; a revision's number is not part of it. */
export function digestOf(revision: Revision): string {
  const known = digests.get(revision);
  if (known !== undefined) return known;
  const { number: _, ...said } = revision;
  const digest = shortName(said);
  digests.set(revision, digest);
  return digest;
}

/** The same for equal values, however they were built: sixteen hexadecimal digits. */
export function shortName(value: unknown): string {
  return fnv1a(utf16(canonical(value)))
    .toString(16)
    .padStart(16, '0');
}

/** A revision never changes, and is asked for its digest at every keystroke of the editor. */
const digests = new WeakMap<Revision, string>();

/** Code units, low byte first: defined for every string, even one that is cut inside a character. */
export function* utf16(text: string): Iterable<number> {
  for (let n = 0; n < text.length; n++) {
    const unit = text.charCodeAt(n);
    yield unit & 0xff;
    yield unit >> 8;
  }
}

/** JSON with keys in order: equal for equal values, however they were built. */
export function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}
