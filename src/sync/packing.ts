/** Turns text into compressed bytes and back: UTF-8 in gzip (RFC 1952). */

import { type Bytes, deflate, inflate } from '../bytes/index.ts';

/**
 * The longest text that is unpacked, in bytes. It is several times as long as a file full of events
 * or a chart with its history.
 */
const LARGEST_PLAIN = 64_000_000;

export async function pack(text: string): Promise<Bytes> {
  const bytes = await deflate(new TextEncoder().encode(text), 'gzip');
  if (!bytes) throw new Error('This browser cannot compress.');
  return bytes;
}

/**
 * Returns the text that `pack` has compressed; null if `pack` cannot have made these bytes.
 * @param most the longest text to accept, in bytes
 */
export async function unpack(
  bytes: Bytes,
  most = LARGEST_PLAIN,
): Promise<string | 'too large' | null> {
  const plain = await inflate(bytes, 'gzip', most);
  if (plain === 'too large') return plain;
  return typeof plain === 'string' ? null : utf8(plain);
}

function utf8(bytes: Bytes): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // A fatal decoder rejects bytes that are not UTF-8.
    return null;
  }
}
