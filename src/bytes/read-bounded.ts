import { type Bytes, joinBytes } from './bytes.ts';

/**
 * Reads a stream to its end. Cancels it and returns null as soon as there are more than `most` bytes.
 * If there is no stream, as in a response without a body, the result is empty.
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
