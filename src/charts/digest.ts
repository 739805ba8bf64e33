/**
 * A short name for what a revision says, so that two devices know a revision again without its
 * number, which may differ between them. It protects against nothing: whoever wants to can make
 * another revision of the same digest, and gains that it is taken for one the player has.
 */

import type { Revision } from './document.ts';

/** Of 64 bits the upper and the lower 32: BigInt would take several times as long. */
const OFFSET_BASIS = [0xcbf29ce4, 0x84222325] as const;
const WORD = 2 ** 32;
/** The prime is 2⁴⁰ + this. */
const PRIME = 0x1b3;

/** FNV-1a, 64 bit (Fowler, Noll & Vo; draft-eastlake-fnv), as sixteen hexadecimal digits. */
export function fnv1a(bytes: Iterable<number>): string {
  let [high, low]: [number, number] = [...OFFSET_BASIS];
  for (const byte of bytes) {
    const mixed = (low ^ byte) >>> 0;
    // Below 2⁴¹, and so exact.
    const product = mixed * PRIME;
    high = (high * PRIME + Math.floor(product / WORD) + ((mixed << 8) >>> 0)) % WORD;
    low = product % WORD;
  }
  return hexOf(high) + hexOf(low);
}

function hexOf(word: number): string {
  return word.toString(16).padStart(8, '0');
}

/** Sixteen hexadecimal digits; a revision's number is not part of it. */
export function digestOf({ number: _, ...said }: Revision): string {
  return fnv1a(utf16(canonical(said)));
}

/** Code units, low byte first: defined for every string, even one that is cut inside a character. */
function* utf16(text: string): Iterable<number> {
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
