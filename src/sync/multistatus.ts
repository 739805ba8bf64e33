/** Reads a WebDAV server's answer to PROPFIND (RFC 4918 §9.1, §14.16), which lists a folder. */

import { attributesIn, type Token, tokensOf, unescapeXml } from './xml.ts';

export interface Listed {
  /** The parts of the path, decoded. */
  readonly path: readonly string[];
  readonly isFolder: boolean;
}

const DAV = 'DAV:';
/** How many levels of elements to accept: far more than any real answer has. */
const DEEPEST = 32;

interface Element {
  /** The name without its prefix; empty if its namespace is not `DAV:`. */
  readonly name: string;
  /** The namespaces in scope, by prefix. */
  readonly scope: ReadonlyMap<string, string>;
  /** The name with its prefix, as written. */
  readonly qualified: string;
}

/** Returns the listing; null if the text is not such an answer or is more than plain XML. */
export function parseMultistatus(text: string): readonly Listed[] | null {
  const reader = new Reader();
  for (const token of tokensOf(text)) if (!token || !reader.accept(token)) return null;
  return reader.isComplete ? reader.listed : null;
}

class Reader {
  readonly listed: Listed[] = [];
  readonly #open: Element[] = [];
  #response: { href: string; isFolder: boolean } | null = null;
  #hasRoot = false;

  get isComplete(): boolean {
    return this.#hasRoot && this.#open.length === 0;
  }

  /** Reads the next token. Returns false if the token is not allowed here. */
  accept(token: Token): boolean {
    switch (token.kind) {
      case 'text':
        return this.#acceptText(token.text);
      case 'open':
        return this.#acceptOpening(token.name, token.attributes);
      case 'close':
        return this.#acceptClosing(token.name);
    }
  }

  #acceptText(text: string): boolean {
    if (this.#response && this.#isInHref()) {
      const plain = unescapeXml(text);
      if (plain === null) return false;
      this.#response.href += plain;
      return true;
    }
    return this.#open.length > 0 || text.trim() === '';
  }

  /** Returns whether the reader is in the response's own `href`, not in one inside a property. */
  #isInHref(): boolean {
    const [, response, href, ...inner] = this.#open;
    return response?.name === 'response' && href?.name === 'href' && inner.length === 0;
  }

  #acceptOpening(qualified: string, attributes: string): boolean {
    if (this.#open.length >= DEEPEST) return false;
    const element = elementOf(qualified, attributes, this.#open.at(-1));
    if (!element) return false;
    if (this.#open.length === 0) {
      if (element.name !== 'multistatus' || this.#hasRoot) return false;
      this.#hasRoot = true;
    }
    this.#open.push(element);
    if (element.name === 'response' && this.#open.length === 2)
      this.#response = { href: '', isFolder: false };
    if (this.#response && element.name === 'collection') this.#response.isFolder = true;
    return true;
  }

  #acceptClosing(qualified: string): boolean {
    const closed = this.#open.pop();
    if (closed?.qualified !== qualified) return false;
    if (!this.#response || closed.name !== 'response' || this.#open.length !== 1) return true;
    const path = pathOf(this.#response.href);
    if (!path) return false;
    this.listed.push({ path, isFolder: this.#response.isFolder });
    this.#response = null;
    return true;
  }
}

function elementOf(
  qualified: string,
  attributes: string,
  parent: Element | undefined,
): Element | null {
  const pairs = attributesIn(attributes);
  if (!pairs) return null;
  const scope = new Map(parent?.scope);
  for (const [key, value] of pairs) {
    if (key === 'xmlns') scope.set('', value);
    else if (key.startsWith('xmlns:')) scope.set(key.slice(6), value);
  }
  const colon = qualified.indexOf(':');
  const [prefix, local] =
    colon < 0 ? ['', qualified] : [qualified.slice(0, colon), qualified.slice(colon + 1)];
  return { name: scope.get(prefix) === DAV ? local : '', scope, qualified };
}

/**
 * Returns the decoded path of an absolute address or an absolute path (RFC 4918 §8.3). Null if it
 * cannot be decoded.
 */
function pathOf(href: string): readonly string[] | null {
  const path = href
    .trim()
    .replace(/^[a-z][a-z0-9+.-]*:\/\/[^/]*/i, '')
    .replace(/[?#].*$/s, '');
  try {
    return path.split('/').filter(Boolean).map(decodeURIComponent);
  } catch {
    // The percent-encoding is malformed.
    return null;
  }
}
