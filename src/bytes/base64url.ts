/** Writes bytes as text and reads them back: base64url without padding (RFC 4648 §5). */

import type { Bytes } from './bytes.ts';

export function toBase64Url(bytes: Uint8Array): string {
  const letters = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  return letters.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Returns the bytes; null unless `toBase64Url` writes them as exactly this text. */
export function fromBase64Url(text: string): Bytes | null {
  if (!/^[\w-]*$/.test(text) || text.length % 4 === 1) return null;
  const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  return toBase64Url(bytes) === text ? bytes : null;
}
