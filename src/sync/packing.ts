/** A piece of a log as bytes and back: JSON, compressed by the browser's gzip (RFC 1952). */

import { allOf } from './bounded.ts';
import type { Bytes } from './vault.ts';

/** Bytes; a file's worth of events or one chart with its history, several times over. */
export const LARGEST_PLAIN = 64_000_000;
/** Deflate makes at most 1032 bytes of one: so little goes in before it is seen what came out. */
const SLICE = 1024;

export async function packed(text: string): Promise<Bytes> {
  const whole = await allOf(
    new Blob([text]).stream().pipeThrough(new CompressionStream('gzip')),
    Number.POSITIVE_INFINITY,
  );
  return whole ?? new Uint8Array();
}

/** `null` if it is not what `packed` makes. @param most bytes at which to stop */
export async function unpacked(
  bytes: Bytes,
  most = LARGEST_PLAIN,
): Promise<string | 'too large' | null> {
  try {
    const plain = await allOf(inSlices(bytes).pipeThrough(new DecompressionStream('gzip')), most);
    return plain === null ? 'too large' : new TextDecoder('utf-8', { fatal: true }).decode(plain);
  } catch {
    // What the streams and the decoder say of bytes that are none of theirs differs by browser.
    return null;
  }
}

function inSlices(bytes: Bytes): ReadableStream<BufferSource> {
  let at = 0;
  return new ReadableStream({
    pull: (controller) => {
      if (at >= bytes.length) return controller.close();
      controller.enqueue(bytes.subarray(at, at + SLICE));
      at += SLICE;
    },
  });
}
