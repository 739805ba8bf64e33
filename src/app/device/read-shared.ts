/** Reads charts from files and links, and tables of lines from files. */

import {
  type ChartDocument,
  LONGEST_FILE,
  type ParsedCsv,
  parseCsv,
  readChartFile,
} from '../../charts/index.ts';
import { readChartCode } from './chart-link.ts';
import { decodeText, type TextEncoding } from './table-text.ts';

export type ReadChart =
  | { readonly ok: true; readonly document: ChartDocument }
  /**
   * `say` is one sentence that tells why this is not a chart. `isBackup` means that it is a backup,
   * which Settings can restore.
   */
  | { readonly ok: false; readonly say: string; readonly isBackup?: true };

/** The largest file that is read, in bytes. UTF-8 takes at most three bytes for a unit of UTF-16. */
const LARGEST = 3 * LONGEST_FILE;
const TOO_LARGE = 'The file is larger than any chart.';
/** The beginning of a backup (store/backup.ts), which may be too large to be read as a chart. */
const BACKUP = /^\ufeff?\s*\{\s*"kind"\s*:\s*"throughline-backup"/;
/** How much to read to recognize a backup, in bytes: its beginning, with room for spaces. */
const HEAD = 200;
const BACKUP_HERE =
  'The file is a backup of everything and not one chart: it is read under Settings, Restore from a file.';
const NOT_READ = 'The browser could not read the file.';

/** Reads a chart from a file, a link, or the code of a link. */
export async function readShared(input: File | string): Promise<ReadChart> {
  if (typeof input === 'string') return readChartCode(input);
  const head = await textOf(input.slice(0, HEAD));
  if (head.ok && BACKUP.test(head.value)) return { ok: false, say: BACKUP_HERE, isBackup: true };
  const text = await textOf(input);
  if (!text.ok) return text;
  const read = readChartFile(text.value);
  if (read.ok || read.code !== 'not JSON' || !parseCsv(text.value).ok) return read;
  const say =
    'The file is a table of lines and not a whole chart: read it into a chart as you edit it.';
  return { ok: false, say };
}

export type ReadTable =
  | (Extract<ParsedCsv, { ok: true }> & { readonly encoding: TextEncoding })
  | { readonly ok: false; readonly say: string };

/** Reads the rows of a table from a file, and guesses the file's encoding. */
export async function readTable(input: File): Promise<ReadTable> {
  if (input.size > LARGEST) return { ok: false, say: TOO_LARGE };
  const bytes = await input.arrayBuffer().catch(() => null);
  if (bytes === null) return { ok: false, say: NOT_READ };
  const { text, encoding } = decodeText(new Uint8Array(bytes));
  const parsed = parseCsv(text);
  return parsed.ok ? { ...parsed, encoding } : parsed;
}

type Text =
  | { readonly ok: true; readonly value: string }
  | { readonly ok: false; readonly say: string };

async function textOf(file: Blob): Promise<Text> {
  if (file.size > LARGEST) return { ok: false, say: TOO_LARGE };
  try {
    return { ok: true, value: await file.text() };
  } catch {
    // The file was moved or deleted after it was chosen.
    return { ok: false, say: NOT_READ };
  }
}
