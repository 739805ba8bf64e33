import { type Bytes, joinBytes } from './bytes.ts';

/**
 * Reads a stream to its end. Null, with the stream canceled, as soon as it exceeds `most` bytes. A
 * response without a body has no stream; it reads as empty.
 */
export async function readBounded(
  stream: ReadableStream<Uint8Array> | null,
  most: number,
): Promise<Bytes | null> {
  if (!stream) return new Uint8Array();
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) return joinBytes(parts);
    size += value.length;
    if (size > most) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
}
