import { describe, expect, it } from 'vitest';
import { formatChartCode } from '../../../src/app/device/chart-link.ts';
import { readShared, readTable } from '../../../src/app/device/read-shared.ts';
import {
  formatChartFile,
  formatCsv,
  HARBOUR_LANE,
  LONGEST_FILE,
  lastRevision,
  measuredRows,
  slim,
} from '../../../src/charts/index.ts';
import { DEFAULT_SETTINGS, formatBackup } from '../../../src/store/index.ts';
import { MEASURED_BAR_TABLE } from '../../charts/measured.ts';

const rows = measuredRows(lastRevision(MEASURED_BAR_TABLE));
const table = formatCsv(rows, 'semicolon, decimal comma');

function file(content: string | Uint8Array<ArrayBuffer>, name = 'chart.json'): File {
  return new File([content], name);
}

/** A file that was deleted after it was chosen. */
const refuse = () => Promise.reject(new DOMException('gone', 'NotFoundError'));
const gone = Object.assign(file(''), { text: refuse, arrayBuffer: refuse });

describe('reading what was shared', () => {
  it('reads a chart from a file of any name', async () => {
    const text = formatChartFile(HARBOUR_LANE);
    for (const name of ['chart.json', 'chart.txt', 'chart']) {
      const read = await readShared(file(text, name));
      expect(read).toEqual({ ok: true, document: HARBOUR_LANE });
    }
  });

  it('reads a chart from a link', async () => {
    const code = await formatChartCode(HARBOUR_LANE);
    const read = await readShared(`https://charts.example/#/receive/${code}`);
    expect(read).toEqual({ ok: true, document: slim(HARBOUR_LANE) });
  });

  it('reads a table of lines', async () => {
    expect(await readTable(file(table, 'lines.csv'))).toEqual({
      ok: true,
      rows,
      encoding: 'UTF-8',
    });
  });

  // é is E9 in Windows-1252 and C3 A9 in UTF-8 (Unicode's mapping table CP1252.TXT; from memory).
  const head = 'pattern,start,soft,remark\r\ncross-side,6,4.9,caf';
  const ascii = [...head].map((one) => one.charCodeAt(0));
  const units = [...`${head}é`].map((one) => one.charCodeAt(0));
  it.each([
    ['UTF-8', [...ascii, 0xc3, 0xa9]],
    ['Windows-1252', [...ascii, 0xe9]],
    ['UTF-16', [0xff, 0xfe, ...units.flatMap((unit) => [unit, 0])]],
    ['UTF-16', [0xfe, 0xff, ...units.flatMap((unit) => [0, unit])]],
  ])('is a table in %s with its letters whole', async (encoding, bytes) => {
    const read = await readTable(file(new Uint8Array(bytes), 'lines.csv'));
    expect(read).toMatchObject({ ok: true, encoding, rows: [{ remark: 'café' }] });
  });

  it.each([
    ['a table', file(table), 'The file is a table of lines and not a whole chart'],
    ['a picture', file(new Uint8Array([0x89, 0x50, 0x4e, 0x47, 0, 255, 254])), 'it is not JSON.'],
    ['nothing', file(''), 'it is not JSON.'],
    ['too much', file('x'.repeat(3 * LONGEST_FILE + 1)), 'The file is larger than any chart.'],
    ['nothing any more', gone, 'The browser could not read the file.'],
  ])('is refused if it is %s instead of a chart', async (_name, input, says) => {
    const read = await readShared(input);
    expect(read.ok ? '' : read.say).toContain(says);
  });

  const backup = formatBackup(
    { events: [], charts: [HARBOUR_LANE], settings: DEFAULT_SETTINGS, unread: [] },
    '2026-11-25T12:00:00Z',
  );
  it.each([
    ['as it is made', backup],
    ['written out by another program', `\ufeff${JSON.stringify(JSON.parse(backup), null, 2)}`],
    ['larger than any chart', backup + ' '.repeat(3 * LONGEST_FILE)],
  ])('is told from a backup %s: that is for Settings', async (_name, text) => {
    const read = await readShared(file(text, 'backup.json'));
    expect(read).toMatchObject({ ok: false, isBackup: true });
    expect(read.ok ? '' : read.say).toContain('Settings, Restore from a file');
  });

  it.each([
    ['a chart', file(formatChartFile(HARBOUR_LANE)), 'none of them.'],
    ['too much', file('x'.repeat(3 * LONGEST_FILE + 1)), 'The file is larger than any chart.'],
    ['nothing any more', gone, 'The browser could not read the file.'],
  ])('is refused if it is %s instead of a table', async (_name, input, says) => {
    const read = await readTable(input);
    expect(read.ok ? '' : read.say).toContain(says);
  });
});
