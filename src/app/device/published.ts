/**
 * Chart files beside the app on its own host: an instructor's chart for any number of students. Their
 * apps ask with the ETag of what they have; while the file is the same, the host answers 304.
 */

import { readBounded } from '../../bytes/index.ts';
import { type ChartDocument, digestOf, LONGEST_FILE, lastRevision } from '../../charts/index.ts';
import type { ChartSource } from '../../store/index.ts';
import { type ReadChart, readShared } from './read-shared.ts';

export interface Published {
  readonly path: string;
  readonly etag: string | null;
}

/** Begins the code of such a file's address: `#/receive/file/charts/harbour-lane.json`. */
const PREFIX = 'file/';
/** Folders and a file of letters, digits, hyphens, underscores and dots; no part begins with a dot, so `..` is no part. */
const PATH = /^(?:[\w-][\w.-]*\/)*[\w-][\w.-]*\.json$/;
const LONGEST_PATH = 200;
const LONGEST_ETAG = 200;
/** UTF-8 takes three bytes at most for a unit of UTF-16. */
const LARGEST = 3 * LONGEST_FILE;

const NOT_A_PATH =
  'The link does not name a chart file beside this app: a path of plain letters that ends with .json.';
const NOT_THERE =
  'The chart file is not on this app’s host any more. Ask its maker for the new link.';
const UNREACHED =
  'The chart file could not be fetched: the device is not online, or its host is not.';
const TOO_LARGE = 'The file is larger than any chart.';

/** Null if the code is not of a file. `fetchChart` refuses a malformed path. */
export function pathIn(code: string): string | null {
  return code.startsWith(PREFIX) ? code.slice(PREFIX.length).replace(/[?#].*$/s, '') : null;
}

/** The address of the screen that receives the file. */
export function receiveLink(path: string): string {
  return `#/receive/${PREFIX}${path}`;
}

export type Fetched =
  | (Extract<ReadChart, { ok: true }> & { readonly from: Published })
  | Extract<ReadChart, { ok: false }>;

/** Fetches the chart even if the known version is the latest. */
export async function fetchChart(path: string): Promise<Fetched> {
  const answer = await fetchWith(path, null);
  // A host does not answer 304 to a request without a tag.
  return answer === 'same' ? refused(UNREACHED) : answer;
}

/** 'same' if the host still has the version that was fetched last. */
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
