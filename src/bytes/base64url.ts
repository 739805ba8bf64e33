/** Bytes as text: base64url without padding (RFC 4648 §5). */

import type { Bytes } from './bytes.ts';

export function toBase64Url(bytes: Uint8Array): string {
  const letters = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  return letters.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** Null unless the text is exactly what `toBase64Url` writes, so each text has one meaning. */
export function fromBase64Url(text: string): Bytes | null {
  if (!/^[\w-]*$/.test(text) || text.length % 4 === 1) return null;
  const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  const bytes = Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
  return toBase64Url(bytes) === text ? bytes : null;
}
