/** Files and links from outside. */

import { inflateRawSync } from 'node:zlib';
import { formatChartCode, readChartCode } from '../../src/app/device/chart-link.ts';
import { decodeText } from '../../src/app/device/table-text.ts';
import { fromBase64Url } from '../../src/bytes/index.ts';
import { emptyState } from '../../src/charts/document/document.ts';
import {
  CSV_DIALECTS,
  type CsvRow,
  fnv1a,
  formatChartFile,
  formatCompact,
  formatCsv,
  HARBOUR_LANE,
  lastRevision,
  measuredRows,
  parseCsv,
  readChartFile,
  readCompact,
  stateOf,
  withCsv,
} from '../../src/charts/index.ts';
import { formatBackup, parseBackup } from '../../src/store/index.ts';
import { CLUB_CLOTH } from '../../src/table/index.ts';
import { parseCsv as parseRfc4180 } from '../bin/csv.ts';
import { clean, same } from './laws.ts';
import { BACKUPS, DOCUMENTS, FIRST_CHARTS } from './seeds.ts';
import { Broken, law, refusedWith, type Target } from './target.ts';

const backup: Target = {
  name: 'backup',
  form: 'json',
  share: 5,
  seeds: BACKUPS,
  take: (text) => {
    const parsed = parseBackup(text as string);
    if (!parsed.ok) return refusedWith(parsed.say);
    clean(parsed.backup, ['record']);
    const written = formatBackup(parsed.backup, 'later');
    const again = parseBackup(written);
    if (!again.ok) throw new Broken('a backup of it is refused', again.say);
    // JSON may lose parts of unread records: an infinite number becomes null.
    same({ ...again.backup, unread: [] }, { ...parsed.backup, unread: [] }, 'a backup differs');
    law(formatBackup(again.backup, 'later') === written, 'a backup of a backup differs');
    return 'taken';
  },
};

const chartFile: Target = {
  name: 'chart file',
  form: 'json',
  share: 4,
  seeds: [
    ...DOCUMENTS.map(formatChartFile),
    ...FIRST_CHARTS.map((chart) => JSON.stringify(chart)),
    `\ufeff${formatChartFile(HARBOUR_LANE)}`,
  ],
  take: (text) => {
    const read = readChartFile(text as string);
    if (!read.ok) return refusedWith(read.say);
    clean(read.document);
    same(readChartFile(formatChartFile(read.document)), read, 'a file of it differs');
    same(readCompact(formatCompact(read.document)), read, 'the short form of it differs');
    return 'taken';
  },
};

const compact: Target = {
  name: 'short form of a link',
  form: 'json',
  share: 8,
  seeds: DOCUMENTS.map(formatCompact),
  take: (text) => {
    const read = readCompact(text as string);
    if (!read.ok) return refusedWith(`It ${read.say}.`);
    clean(read.document);
    same(readCompact(formatCompact(read.document)), read, 'the short form of it differs');
    return 'taken';
  },
};

const CODES = (await Promise.all(DOCUMENTS.map(formatChartCode))).filter((code) => code !== null);

async function takeCode(code: string): Promise<'taken' | 'refused'> {
  const read = await readChartCode(code);
  if (!read.ok) return refusedWith(read.say);
  clean(read.document);
  const again = await formatChartCode(read.document);
  same(await readChartCode(again ?? ''), read, 'a link of it differs');
  return 'taken';
}

const code: Target = {
  name: 'chart link',
  form: 'text',
  share: 1,
  seeds: [...CODES, `https://example.org/#/receive/${CODES[0]}).`],
  take: (text) => takeCode(text as string),
};

/** Changed deflated bytes with a matching checksum. */
const packed: Target = {
  name: 'deflated bytes of a link',
  form: 'bytes',
  share: 1,
  seeds: CODES.map((one) => fromBase64Url(one.slice(6))),
  take: (bytes) => {
    const text = Buffer.from(bytes as Uint8Array).toString('base64url');
    return takeCode(`1${checkOf(bytes as Uint8Array)}${text}`);
  },
};

function checkOf(bytes: Uint8Array): string {
  try {
    const inside = inflateRawSync(bytes, { maxOutputLength: 3_000_000 });
    return fnv1a(inside).toString(32).padStart(5, '0').slice(-5);
  } catch {
    // No deflated bytes, or too many: the checksum is never reached.
    return 'aaaaa';
  }
}

const TABLES = DOCUMENTS.flatMap((document) => {
  const rows = measuredRows(stateOf(lastRevision(document)));
  return CSV_DIALECTS.map((dialect) => formatCsv(rows, dialect));
}).concat('pattern\tstart\tmedium\tremark\ncross-side\t6\t3,5\t"a ""b"""\n');

function takeTable(text: string): 'taken' | 'refused' {
  const parsed = parseCsv(text);
  if (!parsed.ok) return refusedWith(parsed.say);
  const { rows } = parsed;
  clean(rows);
  for (const dialect of CSV_DIALECTS) {
    const written = formatCsv(rows, dialect);
    same(parseCsv(written), parsed, `a table of it in ${dialect} differs`);
    if (dialect === 'comma') asOthersReadIt(rows, written);
  }
  const state = withCsv(emptyState(CLUB_CLOTH), rows);
  if (state) clean(state);
  return 'taken';
}

/** Reads by the grammar of RFC 4180 alone; no text cell may be a formula to a spreadsheet. */
function asOthersReadIt(rows: readonly CsvRow[], written: string): void {
  const [, ...body] = parseRfc4180(written.slice(1));
  law(body.length === rows.length, 'another reader finds different rows');
  for (const [n, row] of body.entries()) {
    const remark = row.at(-1) ?? '';
    const said = rows[n]?.remark ?? '';
    law(remark === said || remark === `'${said}`, 'another reader finds a different remark');
    law(!/^[=+\-@\t\r\n＝＋－＠]/.test(remark), 'a formula', remark);
  }
}

const table: Target = {
  name: 'table of lines (CSV)',
  form: 'text',
  share: 6,
  seeds: TABLES,
  take: (text) => takeTable(text as string),
};

const tableBytes: Target = {
  name: 'bytes of a table',
  form: 'bytes',
  share: 2,
  seeds: TABLES.flatMap((text) => [
    new Uint8Array(Buffer.from(text)),
    new Uint8Array(Buffer.from(`\ufeff${text}`, 'utf16le')),
    new Uint8Array(Buffer.from(text.slice(1), 'latin1')),
  ]),
  take: (bytes) => takeTable(decodeText(bytes as Uint8Array).text),
};

export const FILES: readonly Target[] = [
  backup,
  chartFile,
  compact,
  code,
  packed,
  table,
  tableBytes,
];
