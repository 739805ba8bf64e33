/**
 * Requests to the player's own server: the only code of the app that speaks to another origin, and
 * only to the address the player typed. A redirect is an error, so that no server can pass user name
 * and password on to another.
 */

import { type Bytes, readBounded } from '../bytes/index.ts';
import { Refused } from './refused.ts';

export interface Folder {
  /** Ends with a slash (address.ts). */
  readonly address: string;
  /** If both are empty, requests carry no credentials. */
  readonly user: string;
  readonly password: string;
}

/** What is needed of `fetch`. */
export type Fetch = (address: string, request: RequestInit) => Promise<Response>;

/** Sends one request about a file of the folder, or the folder itself if `name` is empty. */
export type Ask = (
  method: string,
  name: string,
  more?: { readonly headers: Readonly<Record<string, string>>; readonly body: Bytes | string },
) => Promise<Response>;

/** Milliseconds: a player gives up on a phone's bad connection before that. */
const PATIENCE = 60_000;

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

export function refused(code: keyof typeof SAYS, status?: number): Refused {
  return new Refused(code, status ? `${SAYS[code]} (Answer ${status}.)` : SAYS[code]);
}

export function requestsTo({ address, user, password }: Folder, fetch: Fetch): Ask {
  const authorization = user === '' && password === '' ? {} : basic(user, password);
  return async (method, name, more) => {
    const request: RequestInit = {
      method,
      headers: { ...authorization, ...more?.headers },
      redirect: 'error',
      credentials: 'omit',
      cache: 'no-store',
      referrerPolicy: 'no-referrer',
      signal: AbortSignal.timeout(PATIENCE),
    };
    const body = more ? { body: more.body } : {};
    const response = await fetch(address + name, { ...request, ...body }).catch(() => {
      // The browser tells a page no more: it may be offline, or no such server, a redirect, no CORS.
      throw refused('unreachable');
    });
    const why = refusalFor(response.status);
    if (why) throw refused(why, response.status);
    return response;
  };
}

/** The words for statuses that mean the same for every request. */
function refusalFor(status: number): keyof typeof SAYS | null {
  if (status === 401 || status === 403) return 'not let in';
  if (status === 413 || status === 507) return 'full';
  return status >= 500 && status !== 501 ? 'server' : null;
}

/** RFC 7617, in UTF-8. */
function basic(user: string, password: string): Readonly<Record<string, string>> {
  const bytes = new TextEncoder().encode(`${user}:${password}`);
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return { Authorization: `Basic ${btoa(letters)}` };
}

/** Null if it has more bytes than `most`. */
export async function bodyOf({ body }: Response, most: number): Promise<Bytes | null> {
  return readBounded(body, most).catch(() => {
    throw refused('unreachable');
  });
}
