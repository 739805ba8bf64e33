/**
 * Sends requests to the player's own server. This is the only code in the app that contacts a different
 * origin, and it contacts only the address that the player typed. A redirect is an error, so that no
 * server can pass the user name and the password on to another server.
 */

import { type Bytes, readBounded } from '../bytes/index.ts';
import { Refused } from './refused.ts';

export interface Folder {
  /** The address ends with a slash (address.ts). */
  readonly address: string;
  /** If both are empty, requests carry no credentials. */
  readonly user: string;
  readonly password: string;
}

/** The part of `fetch` that is needed here. */
export type Fetch = (address: string, request: RequestInit) => Promise<Response>;

/** Sends one request for a file in the folder, or for the folder itself if `name` is empty. */
export type Ask = (
  method: string,
  name: string,
  more?: { readonly headers: Readonly<Record<string, string>>; readonly body: Bytes | string },
) => Promise<Response>;

/**
 * How long to wait for a reply, in milliseconds. A player with a bad connection gives up before that.
 */
const PATIENCE = 60_000;

const SAYS = {
  unreachable:
    'The server cannot be reached, or does not let this page in (see “Several devices” in the manual: it has to allow it by CORS).',
  'not let in': 'The server does not accept this user name and password.',
  'no folder': 'The folder is not there, and could not be made: make it on the server first.',
  'not WebDAV': 'This address is not a WebDAV folder.',
  full: 'The server has no room for more. Nothing is lost: what waits stays on this device.',
  server: 'The server reported an error. We will try again later.',
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
      // The browser tells a page no more than that. The device may be offline, or the server may not
      // exist, redirect the request, or not allow it by CORS.
      throw refused('unreachable');
    });
    const why = refusalFor(response.status);
    if (why) throw refused(why, response.status);
    return response;
  };
}

/** Returns the reason for statuses that mean the same in every request; null for other statuses. */
function refusalFor(status: number): keyof typeof SAYS | null {
  if (status === 401 || status === 403) return 'not let in';
  if (status === 413 || status === 507) return 'full';
  return status >= 500 && status !== 501 ? 'server' : null;
}

/** Returns the header for basic authentication (RFC 7617), encoded in UTF-8. */
function basic(user: string, password: string): Readonly<Record<string, string>> {
  const bytes = new TextEncoder().encode(`${user}:${password}`);
  const letters = Array.from(bytes, (byte) => String.fromCharCode(byte)).join('');
  return { Authorization: `Basic ${btoa(letters)}` };
}

/** Returns the body of a response; null if it has more than `most` bytes. */
export async function bodyOf({ body }: Response, most: number): Promise<Bytes | null> {
  return readBounded(body, most).catch(() => {
    throw refused('unreachable');
  });
}
