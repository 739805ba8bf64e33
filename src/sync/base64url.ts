/** Bytes as text: base64url without padding (RFC 4648 §5). */

export function textOf(bytes: Uint8Array): string {
  const letters = btoa(Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
  return letters.replaceAll('+', '-').replaceAll('/', '_').replace(/=+$/, '');
}

/** @param text letters of base64url, which a schema has checked */
export function bytesOf(text: string): Uint8Array<ArrayBuffer> {
  const letters = atob(text.replaceAll('-', '+').replaceAll('_', '/'));
  return Uint8Array.from(letters, (letter) => letter.charCodeAt(0));
}
