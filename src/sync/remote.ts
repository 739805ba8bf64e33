/** Reads and writes the folder on the player's own server by WebDAV (RFC 4918). */

import type { Bytes } from '../bytes/index.ts';
import { type Listed, parseMultistatus } from './multistatus.ts';
import { HEADER_NAME, isSegmentName } from './names.ts';
import { Refused } from './refused.ts';
import { type Ask, bodyOf, type Fetch, type Folder, refused, requestsTo } from './requests.ts';

export interface Remote {
  /** Returns the sorted names of the app's own files; null if there is no such folder. */
  readonly list: () => Promise<readonly string[] | null>;
  readonly makeFolder: () => Promise<void>;
  /**
   * Returns the contents of a file; null if it is gone.
   * @param most the largest size to accept, in bytes
   */
  readonly read: (name: string, most: number) => Promise<Bytes | null>;
  /** Writes a new file. Returns false and changes nothing if there is already a file with that name. */
  readonly write: (name: string, bytes: Bytes) => Promise<boolean>;
  readonly remove: (name: string) => Promise<void>;
}

/**
 * The longest listing that is read, in bytes, and the most files in it. Both are several times as many
 * as remain after compacting (sync.ts).
 */
const LARGEST_LISTING = 4_000_000;
const MOST_FILES = 4000;
const PROPFIND =
  '<?xml version="1.0" encoding="utf-8"?><propfind xmlns="DAV:"><prop><resourcetype/></prop></propfind>';

export function openRemote(folder: Folder, fetch: Fetch): Remote {
  const ask = requestsTo(folder, fetch);
  return {
    list: () => list(ask),
    makeFolder: () => makeFolder(ask),
    read: (name, most) => read(ask, name, most),
    write: (name, bytes) => write(ask, name, bytes),
    remove: (name) => remove(ask, name),
  };
}

async function list(ask: Ask): Promise<readonly string[] | null> {
  const headers = { Depth: '1', 'Content-Type': 'application/xml; charset=utf-8' };
  const response = await ask('PROPFIND', '', { headers, body: PROPFIND });
  if (response.status === 404 || response.status === 409) return null;
  if (response.status !== 207) throw refused('not WebDAV', response.status);
  const body = await bodyOf(response, LARGEST_LISTING);
  if (!body) throw refused('listing');
  return namesIn(parseMultistatus(new TextDecoder().decode(body)));
}

/** Returns the names of the app's own files. Leaves out every other file in the folder. */
function namesIn(listed: readonly Listed[] | null): readonly string[] {
  if (!listed) throw refused('listing');
  // The listing includes the folder itself. Its files are one level deeper (RFC 4918 §9.1).
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

async function makeFolder(ask: Ask): Promise<void> {
  const { ok, status } = await ask('MKCOL', '');
  // Status 405 means that another device has just created the folder (RFC 4918 §9.3.1).
  if (!ok && status !== 405) throw refused('no folder', status);
}

async function read(ask: Ask, name: string, most: number): Promise<Bytes | null> {
  const response = await ask('GET', name);
  if (response.status === 404 || response.status === 410) return null;
  if (response.status !== 200) throw refused('server', response.status);
  const body = await bodyOf(response, most);
  if (!body) throw new Refused('too large', tooLargeWords(name));
  return body;
}

function tooLargeWords(name: string): string {
  return `The file ${name} in the folder is larger than any that Throughline writes. It was not read.`;
}

async function write(ask: Ask, name: string, bytes: Bytes): Promise<boolean> {
  const headers = { 'If-None-Match': '*', 'Content-Type': 'application/octet-stream' };
  const { ok, status } = await ask('PUT', name, { headers, body: bytes });
  if (status === 412) return false;
  if (status === 404 || status === 409) throw refused('no folder', status);
  if (!ok) throw refused('server', status);
  return true;
}

async function remove(ask: Ask, name: string): Promise<void> {
  const { ok, status } = await ask('DELETE', name);
  if (!ok && status !== 404) throw refused('server', status);
}
