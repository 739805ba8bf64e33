/**
 * What a WebDAV server lists (RFC 4918 §9.1, §14.16): a reader of the XML that such answers are made
 * of. A worker has no parser of its own, and this one knows no document types and no entities but
 * XML's five, so none can be declared, fetched or unfolded.
 */

export interface Listed {
  /** Parts of its path, decoded. */
  readonly path: readonly string[];
  readonly isFolder: boolean;
}

const DAV = 'DAV:';
/** Far deeper than any such answer. */
const DEEPEST = 32;
const TAG = /<(\/?)([^\s<>/"'=&]+)((?:\s+[^\s<>/"'=&]+\s*=\s*(?:"[^"<]*"|'[^'<]*'))*)\s*(\/?)>/y;
const ATTRIBUTE = /([^\s<>/"'=&]+)\s*=\s*(?:"([^"<]*)"|'([^'<]*)')/g;
const ENTITIES: Readonly<Record<string, string>> = {
  amp: '&',
  lt: '<',
  gt: '>',
  quot: '"',
  apos: "'",
};

interface Element {
  readonly name: string;
  /** Namespaces by prefix. */
  readonly scope: ReadonlyMap<string, string>;
  readonly qualified: string;
}

/** Null if it is no such answer, or more than plain XML. */
export function parseMultistatus(text: string): readonly Listed[] | null {
  const open: Element[] = [];
  const listed: Listed[] = [];
  let current: { href: string; isFolder: boolean } | null = null;
  let roots = 0;
  for (let at = text.startsWith('\ufeff') ? 1 : 0; at < text.length; ) {
    const next = text.indexOf('<', at);
    const end = next < 0 ? text.length : next;
    const words = text.slice(at, end);
    if (isIn(open, 'href') && current) {
      const said = unescaped(words);
      if (said === null) return null;
      current.href += said;
    } else if (open.length === 0 && words.trim() !== '') {
      return null;
    }
    if (next < 0) break;
    at = pastAside(text, next);
    if (at < 0) return null;
    if (at > next) continue;
    TAG.lastIndex = next;
    const tag = TAG.exec(text);
    if (!tag) return null;
    at = TAG.lastIndex;
    const [, closing, qualified = '', attributes = '', empty] = tag;
    if (!closing) {
      if (open.length >= DEEPEST) return null;
      const element = elementOf(qualified, attributes, open.at(-1));
      if (!element) return null;
      if (open.length === 0) {
        roots += 1;
        if (element.name !== 'multistatus' || roots > 1) return null;
      }
      open.push(element);
      if (element.name === 'response' && open.length === 2) current = { href: '', isFolder: false };
      if (current && element.name === 'collection') current.isFolder = true;
    }
    if (!closing && !empty) continue;
    const closed = open.pop();
    if (!closed || closed.qualified !== qualified) return null;
    if (closed.name === 'response' && open.length === 1 && current) {
      const path = pathOf(current.href);
      if (!path) return null;
      listed.push({ path, isFolder: current.isFolder });
      current = null;
    }
  }
  return open.length === 0 && roots === 1 ? listed : null;
}

/** The href of a response, not one that stands inside of a property. */
function isIn(open: readonly Element[], name: string): boolean {
  return open.length === 3 && open[2]?.name === name && open[1]?.name === 'response';
}

/** Past a comment or the XML declaration; as before if there is none, -1 if it is something else. */
function pastAside(text: string, at: number): number {
  if (text.startsWith('<!--', at)) return past(text, '-->', at + 4);
  if (text.startsWith('<?xml', at)) return past(text, '?>', at);
  return text.startsWith('<!', at) || text.startsWith('<?', at) ? -1 : at;
}

function past(text: string, what: string, from: number): number {
  const found = text.indexOf(what, from);
  return found < 0 ? -1 : found + what.length;
}

/** Its name is empty if it is of another namespace. */
function elementOf(
  qualified: string,
  attributes: string,
  parent: Element | undefined,
): Element | null {
  const scope = new Map(parent?.scope);
  for (const [, key = '', quoted, other] of attributes.matchAll(ATTRIBUTE)) {
    const value = unescaped(quoted ?? other ?? '');
    if (value === null) return null;
    if (key === 'xmlns') scope.set('', value);
    else if (key.startsWith('xmlns:')) scope.set(key.slice(6), value);
  }
  const colon = qualified.indexOf(':');
  const [prefix, local] =
    colon < 0 ? ['', qualified] : [qualified.slice(0, colon), qualified.slice(colon + 1)];
  return { name: scope.get(prefix) === DAV ? local : '', scope, qualified };
}

/** Null if it has an entity that XML itself does not know. */
function unescaped(text: string): string | null {
  let isPlain = true;
  const said = text.replace(/&([^;&]{0,10});?/g, (whole, name: string) => {
    const code = /^#(?:x([0-9a-f]{1,6})|(\d{1,7}))$/i.exec(name);
    const point = code ? Number.parseInt(code[1] ?? code[2] ?? '', code[1] ? 16 : 10) : -1;
    if (whole.endsWith(';') && Object.hasOwn(ENTITIES, name)) return ENTITIES[name] ?? '';
    if (whole.endsWith(';') && point >= 0 && point <= 0x10ffff) return String.fromCodePoint(point);
    isPlain = false;
    return '';
  });
  return isPlain ? said : null;
}

/** An absolute address or an absolute path (RFC 4918 §8.3); only its last part is ever used. */
function pathOf(href: string): readonly string[] | null {
  const path = href
    .trim()
    .replace(/^[a-z][a-z0-9+.-]*:\/\/[^/]*/i, '')
    .replace(/[?#].*$/s, '');
  try {
    return path.split('/').filter(Boolean).map(decodeURIComponent);
  } catch {
    // Not percent-encoded as an address has to be.
    return null;
  }
}
