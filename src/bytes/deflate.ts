/** Compression by the browser's own streams: bare deflate (RFC 1951) or gzip (RFC 1952). */

import type { Bytes } from './bytes.ts';
import { readBounded } from './read-bounded.ts';

export type Compression = 'deflate-raw' | 'gzip';

/** Null if this browser cannot compress in this format. */
export async function deflate(bytes: Bytes, format: Compression): Promise<Bytes | null> {
  const compressor = supported(() => new CompressionStream(format));
  if (!compressor) return null;
  return readBounded(new Blob([bytes]).stream().pipeThrough(compressor), Number.POSITIVE_INFINITY);
}

export type Inflated = Bytes | 'malformed' | 'too large' | 'unsupported';

/** @param most bytes of output; inflating stops as soon as there are more */
export async function inflate(bytes: Bytes, format: Compression, most: number): Promise<Inflated> {
  const decompressor = supported(() => new DecompressionStream(format));
  if (!decompressor) return 'unsupported';
  try {
    return (await readBounded(inSlices(bytes).pipeThrough(decompressor), most)) ?? 'too large';
  } catch {
    // What a stream reports of malformed bytes differs by browser.
    return 'malformed';
  }
}

/** Null in older browsers, which have no such stream or not in this format. */
function supported<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    return null;
  }
}

/** Bytes of input between two looks at the output: a byte inflates to 1032 at most, so 1 MB. */
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
