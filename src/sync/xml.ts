/**
 * Reads the XML that WebDAV servers write, token by token, because a worker has no built-in XML parser.
 * This parser knows no document types, and no named entities except the five of XML. So a server
 * cannot declare, fetch, or expand any others.
 */

export type Token =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'open'; readonly name: string; readonly attributes: string }
  | { readonly kind: 'close'; readonly name: string };

const TAG = /<(\/?)([^\s<>/"'=&]+)((?:\s+[^\s<>/"'=&]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>/y;
const ATTRIBUTE = /([^\s<>/"'=&]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/g;
const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
};

/**
 * Yields the tokens of a text. Yields null and ends at the first part that is malformed or more than
 * plain XML. An empty tag yields an open and a close.
 */
export function* tokensOf(text: string): Generator<Token | null> {
  let at = text.startsWith('\ufeff') ? 1 : 0;
  while (at < text.length) {
    const next = text.indexOf('<', at);
    yield { kind: 'text', text: text.slice(at, next < 0 ? text.length : next) };
    if (next < 0) return;
    at = skipComment(text, next);
    if (at > next) continue;
    TAG.lastIndex = next;
    const tag = at < 0 ? null : TAG.exec(text);
    if (!tag) {
      yield null;
      return;
    }
    at = TAG.lastIndex;
    const [, closing, name = '', attributes = '', empty] = tag;
    if (!closing) yield { kind: 'open', name, attributes };
    if (closing || empty) yield { kind: 'close', name };
  }
}

/**
 * Returns the position after a comment or an XML declaration that begins at `at`. Returns `at` if no
 * such markup begins there. Returns -1 if different markup begins there or the end is missing.
 */
function skipComment(text: string, at: number): number {
  if (text.startsWith('<!--', at)) return past(text, '-->', at + 4);
  if (text.startsWith('<?xml', at)) return past(text, '?>', at);
  return text.startsWith('<!', at) || text.startsWith('<?', at) ? -1 : at;
}

function past(text: string, what: string, from: number): number {
  const found = text.indexOf(what, from);
  return found < 0 ? -1 : found + what.length;
}

/** Returns the attributes in a tag; null if a value has an entity that XML does not define. */
export function attributesIn(text: string): readonly (readonly [string, string])[] | null {
  const pairs: [string, string][] = [];
  for (const [, key = '', quoted, other] of text.matchAll(ATTRIBUTE)) {
    const value = unescapeXml(quoted ?? other ?? '');
    if (value === null) return null;
    pairs.push([key, value]);
  }
  return pairs;
}

/** Returns a text with its entities replaced; null if it has an entity that XML does not define. */
export function unescapeXml(text: string): string | null {
  let isPlain = true;
  const plain = text.replace(/&([^;&]{0,10});?/g, (whole, name: string) => {
    const code = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
    const point = code ? Number.parseInt(code[1] ?? code[2] ?? '', code[1] ? 16 : 10) : -1;
    if (whole.endsWith(';') && Object.hasOwn(ENTITIES, name)) return ENTITIES[name] ?? '';
    if (whole.endsWith(';') && point >= 0 && point <= 0x10ffff) return String.fromCodePoint(point);
    isPlain = false;
    return '';
  });
  return isPlain ? plain : null;
}
