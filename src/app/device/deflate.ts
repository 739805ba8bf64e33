/** Deflated bytes as text of an address: the browser's streams (RFC 1951), base64url (RFC 4648 §5). */

/** Deflate makes at most 1032 bytes of one: so little goes in before it is seen what came out. */
const SLICE = 512;

/** Null if this browser cannot deflate. */
export async function deflated(bytes: Uint8Array<ArrayBuffer>): Promise<Uint8Array | null> {
  const packing = made(() => new CompressionStream('deflate-raw'));
  return packing && allOf(inSlices(bytes).pipeThrough(packing), Number.POSITIVE_INFINITY);
}

export type Inflated =
  | Uint8Array<ArrayBuffer>
  | 'no deflated bytes'
  | 'too large'
  | 'cannot inflate';

/** @param most bytes at which to stop, whatever is still to come */
export async function inflated(bytes: Uint8Array<ArrayBuffer>, most: number): Promise<Inflated> {
  const unpacking = made(() => new DecompressionStream('deflate-raw'));
  if (!unpacking) return 'cannot inflate';
  try {
    return (await allOf(inSlices(bytes).pipeThrough(unpacking), most)) ?? 'too large';
  } catch {
    return 'no deflated bytes';
  }
}

/** Older browsers have no such stream, or not of this format. */
function made<T>(make: () => T): T | null {
  try {
    return make();
  } catch {
    return null;
  }
}

function inSlices(bytes: Uint8Array<ArrayBuffer>): ReadableStream<BufferSource> {
  let at = 0;
  return new ReadableStream({
    pull: (controller) => {
      if (at >= bytes.length) return controller.close();
      controller.enqueue(bytes.subarray(at, at + SLICE));
      at += SLICE;
    },
  });
}

/** All that a stream gives, or null as soon as it is more than the most. */
async function allOf(
  stream: ReadableStream<Uint8Array>,
  most: number,
): Promise<Uint8Array<ArrayBuffer> | null> {
  const reader = stream.getReader();
  const parts: Uint8Array[] = [];
  let size = 0;
  for (;;) {
    const { done, value } = await reader.read();
    if (done) break;
    size += value.length;
    parts.push(value);
    if (size > most) {
      await reader.cancel();
      return null;
    }
  }
  const whole = new Uint8Array(size);
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

export function toBase64Url(bytes: Uint8Array): string {
  const letters = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  return letters.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Null if it is not exactly what `toBase64Url` writes. */
export function fromBase64Url(text: string): Uint8Array<ArrayBuffer> | null {
  if (!/^[\w-]*$/.test(text) || text.length % 4 === 1) return null;
  const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  return toBase64Url(bytes) === text ? bytes : null;
}
