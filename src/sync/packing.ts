/** Text as compressed bytes and back: UTF-8 in gzip (RFC 1952). */

import { type Bytes, deflate, inflate } from '../bytes/index.ts';

/** Bytes; several times a file's worth of events, or one chart with its history. */
const LARGEST_PLAIN = 64_000_000;

export async function pack(text: string): Promise<Bytes> {
  const bytes = await deflate(new TextEncoder().encode(text), 'gzip');
  if (!bytes) throw new Error('This browser cannot compress.');
  return bytes;
}

/** Null if it is not what `pack` makes. @param most bytes of text at which to stop */
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
    // A fatal decoder rejects what is not UTF-8.
    return null;
  }
}
