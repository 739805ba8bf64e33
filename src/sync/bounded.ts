/** Streams read to an end that is set before: whatever is still to come is not waited for. */

import type { Bytes } from './vault.ts';

/** All that a stream gives; null as soon as it is more than the most, with the stream stopped. */
export async function allOf(
  stream: ReadableStream<Uint8Array>,
  most: number,
): Promise<Bytes | null> {
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    if (size > most) {
      await reader.cancel();
      return null;
    }
    parts.push(value);
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}
