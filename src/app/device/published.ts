/**
 * Fetches chart files that are hosted with the app, such as an instructor's chart for any number of
 * students. Each student's app sends the ETag of the version that it has. If the file is still the
 * same, the host answers 304.
 */

import { readBounded } from '../../bytes/index.ts';
import { type ChartDocument, digestOf, LONGEST_FILE, lastRevision } from '../../charts/index.ts';
import type { ChartSource } from '../../store/index.ts';
import { type ReadChart, readShared } from './read-shared.ts';

export interface Published {
  readonly path: string;
  readonly etag: string | null;
}

/** The start of the code in such a link: `#/receive/file/charts/harbour-lane.json`. */
const PREFIX = 'file/';
/**
 * Folders and a file, with names of letters, digits, hyphens, underscores, and dots. No name begins
 * with a dot, so `..` is not allowed.
 */
const PATH = /^(?:[\w-][\w.-]*\/)*[\w-][\w.-]*\.json$/;
const LONGEST_PATH = 200;
const LONGEST_ETAG = 200;
/** The largest file that is read, in bytes. UTF-8 takes at most three bytes for a unit of UTF-16. */
const LARGEST = 3 * LONGEST_FILE;

const NOT_A_PATH =
  'The link does not name a chart file beside this app: a path of plain letters that ends with .json.';
const NOT_THERE =
  'The chart file is not on this app’s host any more. Ask its maker for the new link.';
const UNREACHED =
  'The chart file could not be fetched: the device is not online, or its host is not.';
const TOO_LARGE = 'The file is larger than any chart.';

/** Returns the path in a code; null if the code is not for a file. `fetchChart` checks the path. */
export function pathIn(code: string): string | null {
  return code.startsWith(PREFIX) ? code.slice(PREFIX.length).replace(/[?#].*$/s, '') : null;
}

/** Returns the address of the screen that receives the file. */
export function receiveLink(path: string): string {
  return `#/receive/${PREFIX}${path}`;
}

export type Fetched =
  | (Extract<ReadChart, { ok: true }> & { readonly from: Published })
  | Extract<ReadChart, { ok: false }>;

/** Fetches a chart even if the latest version is already known. */
export async function fetchChart(path: string): Promise<Fetched> {
  const answer = await fetchWith(path, null);
  // A host does not answer 304 to a request without a tag.
  return answer === 'same' ? refused(UNREACHED) : answer;
}

/** Fetches a chart; returns 'same' if the host still has the version that was fetched last. */
export function fetchIfChanged({ path, etag }: ChartSource): Promise<Fetched | 'same'> {
  return fetchWith(path, etag);
}

export function sourceOf({ path, etag }: Published, document: ChartDocument): ChartSource {
  return { path, etag, tip: digestOf(lastRevision(document)) };
}

async function fetchWith(path: string, etag: string | null): Promise<Fetched | 'same'> {
  if (path.length > LONGEST_PATH || !PATH.test(path)) return refused(NOT_A_PATH);
  const address = new URL(path, document.baseURI);
  const headers: Record<string, string> = etag === null ? {} : { 'If-None-Match': etag };
  try {
    const response = await fetch(address, { headers, cache: 'no-store', redirect: 'error' });
    if (response.status === 304) return 'same';
    if (response.status === 404 || response.status === 410) return refused(NOT_THERE);
    if (!response.ok) return refused(UNREACHED);
    const body = await readBounded(response.body, LARGEST);
    if (!body) return refused(TOO_LARGE);
    const read = await readShared(new File([body], 'chart.json'));
    const tag = response.headers.get('ETag');
    const from = { path, etag: tag !== null && tag.length <= LONGEST_ETAG ? tag : null };
    return read.ok ? { ...read, from } : read;
  } catch (error) {
    if (error instanceof TypeError) return refused(UNREACHED);
    throw error;
  }
}

function refused(say: string): Extract<ReadChart, { ok: false }> {
  return { ok: false, say };
}
