/** Bytes in unshared memory, as the browser's interfaces require. */
export type Bytes = Uint8Array<ArrayBuffer>;

export function joinBytes(parts: readonly Uint8Array[]): Bytes {
  const whole = new Uint8Array(parts.reduce((size, part) => size + part.length, 0));
  let at = 0;
  for (const part of parts) {
    whole.set(part, at);
    at += part.length;
  }
  return whole;
}

/** Returns two lowercase hexadecimal digits for each byte. */
export function toHex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
