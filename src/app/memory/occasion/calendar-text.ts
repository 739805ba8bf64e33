/**
 * Writes content lines of RFC 5545, escaped and folded so that no line is longer than 75 octets.
 */

/** The maximum length of a line in octets, not counting the line break (RFC 5545 3.1). */
const LONGEST = 75;

const encoder = new TextEncoder();

/** Writes a line with a value that needs no escaping. */
export function contentLine(name: string, value: string): string {
  return folded(`${name}:${value}`);
}

/** Writes a line with any text as its value (RFC 5545 3.3.11). */
export function textLine(name: string, text: string): string {
  return contentLine(name, escaped(text));
}

/**
 * Escapes the characters that RFC 5545 reserves, drops control characters, and replaces lone
 * surrogates.
 */
function escaped(text: string): string {
  return text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll(/(?![\t\n])\p{Cc}/gu, '')
    .replaceAll(/\p{Cs}/gu, '\ufffd')
    .replaceAll(/[\\;,]/g, (sign) => `\\${sign}`)
    .replaceAll('\n', '\\n');
}

/**
 * Folds a line between two characters. Each further line begins with a space, which counts as an
 * octet.
 */
function folded(line: string): string {
  const parts: string[] = [];
  let part = '';
  let octets = 0;
  for (const character of line) {
    const size = encoder.encode(character).length;
    if (octets + size > LONGEST) {
      parts.push(part);
      part = ' ';
      octets = 1;
    }
    part += character;
    octets += size;
  }
  return [...parts, part].join('\r\n');
}
