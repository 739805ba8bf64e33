/** A chart as a code in a link: a version, a check, and its last revision, compact and deflated. */

import { deflate, fromBase64Url, inflate, toBase64Url } from '../../bytes/index.ts';
import { type ChartDocument, fnv1a, formatCompact, readCompact, slim } from '../../charts/index.ts';
import { linkTo } from './share.ts';

const VERSION = '1';
const CHECK_LENGTH = 5;
/** Characters; ten times the longest link that can be passed on. */
const LONGEST_CODE = 80_000;
/** Bytes; several times what the longest code of a chart inflates to. */
const LONGEST_TEXT = 2_000_000;
/** Characters; many apps that send links cut or refuse longer ones. */
export const LONGEST_LINK = 8_000;

export type ReadLink =
  | { readonly ok: true; readonly document: ChartDocument }
  /** `say`: one sentence about the link. */
  | { readonly ok: false; readonly say: string };

/** The address at which another player receives the chart; null if this browser cannot deflate. */
export async function chartLink(document: ChartDocument): Promise<string | null> {
  const code = await formatChartCode(document);
  return code === null ? null : linkTo(`#/receive/${code}`);
}

/** Null if this browser cannot deflate. */
export async function formatChartCode(document: ChartDocument): Promise<string | null> {
  const bytes = new TextEncoder().encode(formatCompact(slim(document)));
  const packed = await deflate(bytes, 'deflate-raw');
  return packed && VERSION + checkOf(bytes) + toBase64Url(packed);
}

const DAMAGED =
  'The link is damaged: a part of it is missing or was changed. Ask for it again, or for the file.';
const NEWER = 'The link was made by a newer Throughline. Load this page again to get it.';
const LARGE = 'The link holds more than any chart does.';
const OLD_BROWSER = 'This browser is too old to read charts from links. Ask for the file.';

/** Reads a code, or the link that contains it. */
export async function readChartCode(link: string): Promise<ReadLink> {
  // The app that sent it may have added a period, a bracket or a query.
  const code = link
    .trim()
    .replace(/^.*\//s, '')
    .replace(/[^\w-].*$/s, '');
  if (code.length > LONGEST_CODE) return refuse(LARGE);
  if (/^[2-9]/.test(code)) return refuse(NEWER);
  const packed = code.startsWith(VERSION) && fromBase64Url(code.slice(1 + CHECK_LENGTH));
  if (!packed) return refuse(DAMAGED);
  const bytes = await inflate(packed, 'deflate-raw', LONGEST_TEXT);
  if (bytes === 'too large') return refuse(LARGE);
  if (bytes === 'unsupported') return refuse(OLD_BROWSER);
  if (bytes === 'malformed' || checkOf(bytes) !== code.slice(1, 1 + CHECK_LENGTH))
    return refuse(DAMAGED);
  const read = readCompact(new TextDecoder().decode(bytes));
  return read.ok ? read : refuse(`The link ${read.say}.`);
}

function refuse(say: string): ReadLink {
  return { ok: false, say };
}

/** 25 bits. Deflate has no check of its own: a changed letter could change a number. */
function checkOf(bytes: Uint8Array): string {
  return fnv1a(bytes).toString(32).padStart(CHECK_LENGTH, '0').slice(-CHECK_LENGTH);
}
