/** Decodes the bytes of a table. Spreadsheets use several encodings and do not say which one. */

export const ENCODINGS = ['UTF-8', 'UTF-16', 'Windows-1252'] as const;
export type TextEncoding = (typeof ENCODINGS)[number];

export interface DecodedText {
  readonly text: string;
  /** The encoding. Windows-1252 is a guess for text that is in neither of the other two. */
  readonly encoding: TextEncoding;
}

/**
 * Decodes text as UTF-16 if it begins with a byte order mark, otherwise as UTF-8 if all of it is valid,
 * otherwise as Windows-1252. In Windows-1252 every byte is a character, so decoding never fails
 * (Encoding Standard, whatwg.org).
 */
export function decodeText(bytes: Uint8Array): DecodedText {
  const [first, second] = bytes;
  const decode = (label: string) => new TextDecoder(label).decode(bytes);
  if (first === 0xff && second === 0xfe) return { text: decode('utf-16le'), encoding: 'UTF-16' };
  if (first === 0xfe && second === 0xff) return { text: decode('utf-16be'), encoding: 'UTF-16' };
  const text = utf8(bytes);
  return text === null
    ? { text: decode('windows-1252'), encoding: 'Windows-1252' }
    : { text, encoding: 'UTF-8' };
}

function utf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    // The bytes are not UTF-8.
    return null;
  }
}
