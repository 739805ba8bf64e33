/** Content lines of RFC 5545: escaped, and folded so that no line is longer than 75 octets. */

/** 3.1: without the line break. */
const LONGEST = 75;

const encoder = new TextEncoder();

/** A line whose value is written as it is. */
export function contentLine(name: string, value: string): string {
  return folded(`${name}:${value}`);
}

/** A line whose value is any text, by 3.3.11. */
export function textLine(name: string, text: string): string {
  return contentLine(name, escaped(text));
}

/** Control characters have no place in a text; a half of a pair is no character. */
function escaped(text: string): string {
  return text
    .replaceAll(/\r\n?/g, '\n')
    .replaceAll(/(?![\t\n])\p{Cc}/gu, '')
    .replaceAll(/\p{Cs}/gu, '\ufffd')
    .replaceAll(/[\\;,]/g, (sign) => `\\${sign}`)
    .replaceAll('\n', '\\n');
}

/** Broken between characters; a space begins each further line and counts. */
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
