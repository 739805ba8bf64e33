/**
 * Writes and reads chart files: a chart document as JSON text. The format is published as
 * public/chart.schema.json.
 */

import type { ChartDocument } from '../document/document.ts';
import { readChart } from '../document/read.ts';
import { withoutOldest } from '../document/revise.ts';

/**
 * The most characters in a file. The longest possible revision has about three million: 2000 lines,
 * each with a remark of 200 characters that JSON has to escape.
 */
export const LONGEST_FILE = 4_000_000;

/** The file with the published format of chart files; it is next to the app. */
export const CHART_SCHEMA = 'chart.schema.json';

/** Every key of a document, in file order. */
const KEYS: readonly string[] = [
  ...['kind', 'version', 'id', 'name', 'table', 'startStep', 'printStep', 'basis', 'earlier'],
  ...['revisions', 'number', 'date', 'author', 'why', 'condition', 'patterns', 'measured'],
  ...['priorities', 'remarks', 'levels', 'names', 'lines', 'pattern', 'start'],
  ...['soft', 'medium', 'firm', 'priority', 'text', 'level'],
  ...['restitution', 'noseFriction', 'slideFriction', 'rollFriction', 'spinDecay', 'speeds'],
];

/**
 * Returns the text of a chart's file; equal charts have equal text. If the text would be too long,
 * the oldest revisions become digests, but as few as possible.
 */
export function formatChartFile(document: ChartDocument): string {
  const whole = textOf(document);
  if (whole.length <= LONGEST_FILE) return whole;
  let [short, enough] = [0, document.revisions.length - 1];
  while (enough - short > 1) {
    const middle = Math.floor((short + enough) / 2);
    if (textOf(withoutOldest(document, middle)).length <= LONGEST_FILE) enough = middle;
    else short = middle;
  }
  return textOf(withoutOldest(document, enough));
}

function textOf(document: ChartDocument): string {
  return `${JSON.stringify(document, [...KEYS], 2)}\n`;
}

export type ChartFileError =
  | 'too large'
  | 'not JSON'
  | 'not a chart'
  | 'future version'
  | 'damaged';

export type ReadFile =
  | { readonly ok: true; readonly document: ChartDocument }
  /** `say` is one sentence about what is wrong with the file. */
  | { readonly ok: false; readonly code: ChartFileError; readonly say: string };

/** Returns the document in a file's text, or why there is none. */
export function readChartFile(text: string): ReadFile {
  if (text.length > LONGEST_FILE)
    return { ok: false, code: 'too large', say: 'The file is larger than any chart.' };
  const data = parsed(text);
  if (!data.ok)
    return { ok: false, code: 'not JSON', say: 'The file cannot be read: it is not JSON.' };
  const read = readChart(data.value);
  return read.ok ? read : { ok: false, code: read.code, say: `The file ${read.say}.` };
}

function parsed(text: string): { readonly ok: true; readonly value: unknown } | { ok: false } {
  try {
    return { ok: true, value: JSON.parse(text.replace(/^\ufeff/, '')) };
  } catch {
    return { ok: false };
  }
}
