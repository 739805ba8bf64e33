/** Bytes in memory of their own, as the browser's interfaces ask for them. */
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

/** Two lowercase digits a byte. */
export function toHex(bytes: Uint8Array): string {
  return Array.from(bytes, (byte) => byte.toString(16).padStart(2, '0')).join('');
}
