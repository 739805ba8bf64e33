/**
 * The folder on the player's own storage, over WebDAV (RFC 4918): the only code of the app that
 * speaks to another origin, and only to the address that was typed. A redirect is an error, so that
 * no server can send user name and password on to another.
 */

import { type Bytes, readBounded } from '../bytes/index.ts';
import { type Listed, parseMultistatus } from './multistatus.ts';
import { HEADER_NAME, isSegmentName } from './names.ts';
import { Refused } from './refused.ts';

export interface Folder {
  /** Ends with a slash (address.ts). */
  readonly address: string;
  /** Both empty: nothing is sent to name the player. */
  readonly user: string;
  readonly password: string;
}

export interface Remote {
  /** Names of the files that are ours, in order; null if there is no such folder. */
  readonly list: () => Promise<readonly string[] | null>;
  readonly makeFolder: () => Promise<void>;
  /** Null if it is gone. @param most bytes */
  readonly read: (name: string, most: number) => Promise<Bytes | null>;
  /** False, with nothing changed, if there is a file of that name. */
  readonly write: (name: string, bytes: Bytes) => Promise<boolean>;
  readonly remove: (name: string) => Promise<void>;
}

/** What is needed of `fetch`. */
export type Fetch = (address: string, request: RequestInit) => Promise<Response>;

/** Bytes of a listing, and files in it: several times what compaction leaves (compaction.ts). */
const LARGEST_LISTING = 4_000_000;
const MOST_FILES = 4000;
/** Milliseconds: a phone's bad line is given up later than that by the player. */
const PATIENCE = 60_000;
const ASKED =
  '<?xml version="1.0" encoding="utf-8"?><propfind xmlns="DAV:"><prop><resourcetype/></prop></propfind>';

const SAYS = {
  unreachable:
    'The server cannot be reached, or does not let this page in (see “Several devices” in the manual: it has to allow it by CORS).',
  'not let in': 'The server does not accept this user name and password.',
  'no folder': 'The folder is not there, and could not be made: make it on the server first.',
  'not WebDAV': 'This address is not a WebDAV folder.',
  full: 'The server has no room for more. Nothing is lost: what waits stays on this device.',
  server: 'The server is in trouble. It is tried again later.',
  listing:
    'The server’s list of files is not one that this app can trust: too long, or not what a WebDAV server lists.',
} as const;

function refused(code: keyof typeof SAYS, status?: number): Refused {
  return new Refused(code, status ? `${SAYS[code]} (Answer ${status}.)` : SAYS[code]);
}

export function openRemote({ address, user, password }: Folder, fetch: Fetch): Remote {
  const authorization = user === '' && password === '' ? {} : basic(user, password);
  const ask = async (
    method: string,
    name: string,
    headers: Readonly<Record<string, string>> = {},
    body?: Bytes | string,
  ): Promise<Response> => {
    const request: RequestInit = {
      method,
      headers: { ...authorization, ...headers },
      redirect: 'error',
      credentials: 'omit',
      cache: 'no-store',
      referrerPolicy: 'no-referrer',
      signal: AbortSignal.timeout(PATIENCE),
    };
    const response = await fetch(address + name, body ? { ...request, body } : request).catch(
      () => {
        // The browser tells a page nothing more: not online, no such server, a redirect, no CORS.
        throw refused('unreachable');
      },
    );
    const { status } = response;
    if (status === 401 || status === 403) throw refused('not let in', status);
    if (status === 413 || status === 507) throw refused('full', status);
    if (status >= 500 && status !== 501) throw refused('server', status);
    return response;
  };
  return {
    list: async () => {
      const type = 'application/xml; charset=utf-8';
      const response = await ask('PROPFIND', '', { Depth: '1', 'Content-Type': type }, ASKED);
      if (response.status === 404 || response.status === 409) return null;
      if (response.status !== 207) throw refused('not WebDAV', response.status);
      const body = await bodyOf(response, LARGEST_LISTING);
      if (!body) throw refused('listing');
      return namesIn(parseMultistatus(new TextDecoder().decode(body)));
    },
    makeFolder: async () => {
      const { ok, status } = await ask('MKCOL', '');
      // 405: another device has just made it (RFC 4918 §9.3.1).
      if (!ok && status !== 405) throw refused('no folder', status);
    },
    read: async (name, most) => {
      const response = await ask('GET', name);
      if (response.status === 404 || response.status === 410) return null;
      if (response.status !== 200) throw refused('server', response.status);
      const body = await bodyOf(response, most);
      if (!body)
        throw new Refused(
          'too large',
          `The file ${name} in the folder is larger than any that Throughline writes. It was not read.`,
        );
      return body;
    },
    write: async (name, bytes) => {
      const type = 'application/octet-stream';
      const headers = { 'If-None-Match': '*', 'Content-Type': type };
      const { ok, status } = await ask('PUT', name, headers, bytes);
      if (status === 412) return false;
      if (status === 404 || status === 409) throw refused('no folder', status);
      if (!ok) throw refused('server', status);
      return true;
    },
    remove: async (name) => {
      const { ok, status } = await ask('DELETE', name);
      if (!ok && status !== 404) throw refused('server', status);
    },
  };
}

/** RFC 7617, in UTF-8. */
function basic(user: string, password: string): Readonly<Record<string, string>> {
  const bytes = new TextEncoder().encode(`${user}:${password}`);
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return { Authorization: `Basic ${btoa(letters)}` };
}

async function bodyOf({ body }: Response, most: number): Promise<Bytes | null> {
  return readBounded(body, most).catch(() => {
    throw refused('unreachable');
  });
}

/** Whatever else lies in the folder is none of ours. */
function namesIn(listed: readonly Listed[] | null): readonly string[] {
  if (!listed) throw refused('listing');
  // The folder itself is among them, and what lies in it is one deeper (RFC 4918 §9.1).
  const depth = Math.min(...listed.map(({ path }) => path.length));
  const itself = listed.find(({ path }) => path.length === depth);
  if (!itself?.isFolder) throw refused('not WebDAV');
  const names = listed
    .filter(({ path, isFolder }) => path.length === depth + 1 && !isFolder)
    .map(({ path }) => path[depth] ?? '')
    .filter((name) => name === HEADER_NAME || isSegmentName(name));
  if (names.length > MOST_FILES) throw refused('listing');
  return [...new Set(names)].sort();
}
