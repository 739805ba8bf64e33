/** Compresses with the browser's own streams: raw deflate (RFC 1951) or gzip (RFC 1952). */

import type { Bytes } from './bytes.ts';
import { readBounded } from './read-bounded.ts';

export type Compression = 'deflate-raw' | 'gzip';

/** Returns the compressed bytes; null if this browser cannot compress in this format. */
export async function deflate(bytes: Bytes, format: Compression): Promise<Bytes | null> {
  const compressor = supported(() => new CompressionStream(format));
  if (!compressor) return null;
  return readBounded(new Blob([bytes]).stream().pipeThrough(compressor), Number.POSITIVE_INFINITY);
}

export type Inflated = Bytes | 'malformed' | 'too large' | 'unsupported';

/** @param most the most bytes of output; inflating stops as soon as there are more */
export async function inflate(bytes: Bytes, format: Compression, most: number): Promise<Inflated> {
  const decompressor = supported(() => new DecompressionStream(format));
  if (!decompressor) return 'unsupported';
  try {
    return (await readBounded(inSlices(bytes).pipeThrough(decompressor), most)) ?? 'too large';
  } catch {
    // The error for malformed bytes differs from browser to browser.
    return 'malformed';
  }
}

/** Returns the stream; null in older browsers without such a stream or without this format. */
function supported<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    return null;
  }
}

/**
 * How many bytes to inflate before the size of the output is checked again. One byte inflates to 1032
 * bytes at most, so a slice inflates to at most 1 MB.
 */
const SLICE = 1024;

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
