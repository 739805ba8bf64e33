/**
 * Writes a chart as a code in a link, and reads it. The code is a version, a check, and the chart's
 * last revision in a compact form, deflated.
 */

import { deflate, fromBase64Url, inflate, toBase64Url } from '../../bytes/index.ts';
import { type ChartDocument, fnv1a, formatCompact, readCompact, slim } from '../../charts/index.ts';
import { linkTo } from './share.ts';

const VERSION = '1';
const CHECK_LENGTH = 5;
/** The longest code that is read, in characters: ten times as long as a link may be when it is sent. */
const LONGEST_CODE = 80_000;
/** The most text that is inflated, in bytes: several times as much as the longest code inflates to. */
const LONGEST_TEXT = 2_000_000;
/** The longest link that is sent, in characters. Many apps cut or refuse longer links. */
export const LONGEST_LINK = 8_000;

export type ReadLink =
  | { readonly ok: true; readonly document: ChartDocument }
  /** `say` is one sentence about the link. */
  | { readonly ok: false; readonly say: string };

/** Returns the link by which another player receives the chart; null if this browser cannot deflate. */
export async function chartLink(document: ChartDocument): Promise<string | null> {
  const code = await formatChartCode(document);
  return code === null ? null : linkTo(`#/receive/${code}`);
}

/** Returns the code of a chart; null if this browser cannot deflate. */
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
  // The app that sent the link may have added a period, a bracket, or a query.
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

/** Returns a check of 25 bits. Deflate has none, so a changed letter could change a number. */
function checkOf(bytes: Uint8Array): string {
  return fnv1a(bytes).toString(32).padStart(CHECK_LENGTH, '0').slice(-CHECK_LENGTH);
}
