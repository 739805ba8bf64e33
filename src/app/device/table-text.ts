/** Decodes a table's bytes: spreadsheets use several encodings and do not say which. */

export const ENCODINGS = ['UTF-8', 'UTF-16', 'Windows-1252'] as const;
export type TextEncoding = (typeof ENCODINGS)[number];

export interface DecodedText {
  readonly text: string;
  /** Windows-1252 is a guess: for a text that is neither of the others. */
  readonly encoding: TextEncoding;
}

/**
 * UTF-16 if it begins with a byte order mark; else UTF-8 if all of it is valid; else Windows-1252, in
 * which every byte is a character (Encoding Standard, whatwg.org: its decoder has no errors).
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
    // It is not UTF-8.
    return null;
  }
}
