import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { emptyState } from '../../../src/charts/document/document.ts';
import {
  CSV_DIALECTS,
  type CsvDialect,
  type CsvRow,
  computeChart,
  formatCsv,
  HARBOUR_LANE_BAR,
  lastRevision,
  measuredRows,
  PATTERNS,
  parseCsv,
  printedRows,
  toDecimal,
  withCsv,
} from '../../../src/charts/index.ts';
import { CLUB_CLOTH, SPEEDS } from '../../../src/table/index.ts';
import { parseCsv as parseByGrammar } from '../../bin/csv.ts';
import { anyState } from '../documents.ts';
import { MEASURED_BAR_TABLE } from '../measured.ts';

const HEADER = 'pattern,start,soft,medium,firm,priority,remark\r\n';
const bar = lastRevision(MEASURED_BAR_TABLE);
const anyRows = anyState.map(measuredRows);

function rowsOf(text: string): readonly CsvRow[] {
  const read = parseCsv(text);
  if (!read.ok) throw new Error(read.say);
  return read.rows;
}

function refusal(text: string): string {
  const read = parseCsv(text);
  return read.ok ? '' : read.say;
}

describe('a chart as a table of values', () => {
  it.each(CSV_DIALECTS)('with %s reads back as the rows that were written', (dialect) => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        expect(rowsOf(formatCsv(rows, dialect))).toEqual(rows);
      }),
      { numRuns: 200 },
    );
  });

  it('reads the same with tabs, or with lines that end in LF or CR', () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        // Remarks may contain the characters that are replaced here, so they are left out.
        const plain = rows.map((row) => ({ ...row, remark: row.remark && 'said' }));
        const text = formatCsv(plain, 'semicolon');
        expect(rowsOf(text.replaceAll(';', '\t'))).toEqual(plain);
        expect(rowsOf(text.replaceAll('\r\n', '\n'))).toEqual(plain);
        expect(rowsOf(text.replaceAll('\r\n', '\r'))).toEqual(plain);
        expect(rowsOf(text.replace('\ufeff', '').trimEnd())).toEqual(plain);
      }),
    );
  });

  // By the grammar of RFC 4180 §2 alone (tests/bin/csv.ts), which has no byte order mark.
  it('follows the grammar of RFC 4180, with all rows equally long', () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        const records = parseByGrammar(formatCsv(rows, 'comma').replace(/^\ufeff/, ''));
        expect(records).toHaveLength(rows.length + 1);
        for (const record of records) expect(record).toHaveLength(7);
      }),
    );
  });

  // OWASP, "CSV Injection": cells that begin with = + - @, tab or carriage return are formulas.
  it('has no cell that a spreadsheet reads as a formula', () => {
    fc.assert(
      fc.property(anyRows, (rows) => {
        const records = parseByGrammar(formatCsv(rows, 'comma').replace(/^\ufeff/, ''));
        for (const cell of records.flat()) expect(cell).not.toMatch(/^[=+\-@\t\r\n＝＋－＠]/);
      }),
    );
  });

  it.each([
    ['=1+1', "'=1+1"],
    ["'=1+1", "''=1+1"],
    ["'til the second diamond", "'til the second diamond"],
    ['aim high', 'aim high'],
  ])('writes the remark %j as %j, and reads it back', (remark, cell) => {
    const [row] = rowsOf(`${HEADER}cross-side,6,,4.85,,,x`);
    if (!row) throw new Error('no row');
    const text = formatCsv([{ ...row, remark }], 'comma');
    expect(parseByGrammar(text.replace(/^\ufeff/, ''))[1]?.[6]).toBe(cell);
    expect(rowsOf(text)[0]?.remark).toBe(remark);
  });

  it('writes numbers with the decimal mark of its dialect', () => {
    const rows = measuredRows(bar).filter(({ pattern }) => pattern === 'cross-side');
    const lines = (dialect: CsvDialect) => formatCsv(rows, dialect).split('\r\n');
    expect(lines('comma')[1]).toBe('cross-side,5.0,4.5,4.4,4.35,,');
    expect(lines('semicolon')[1]).toBe('cross-side;5.0;4.5;4.4;4.35;;');
    expect(lines('semicolon, decimal comma')[1]).toBe('cross-side;5,0;4,5;4,4;4,35;;');
  });
});

describe('rows of a chart', () => {
  it('applied to it change nothing, and applied to an empty one restore it', () => {
    fc.assert(
      fc.property(anyState, (some) => {
        // Tables leave out patterns that the chart does not teach.
        const state = { ...some, patterns: PATTERNS.map(({ id }) => id) };
        const rows = measuredRows(state);
        expect(withCsv(state, rows)).toEqual(state);
        const bare = { ...state, measured: [], priorities: [], remarks: [] };
        expect(withCsv(bare, rows)).toEqual(state);
      }),
    );
  });

  it('fill cells, keep what they leave empty, and add their patterns', () => {
    const rows = rowsOf(`${HEADER}cross-side,6,,4.8,,,\r\nthree-cushion,,,,,last,`);
    const state = withCsv(bar, rows);
    expect(state?.patterns).toEqual([...bar.patterns, 'three-cushion']);
    const at = { pattern: 'cross-side', start: toDecimal(6) };
    expect(state?.measured).toContainEqual({
      ...at,
      soft: toDecimal(4.9),
      medium: toDecimal(4.8),
      firm: toDecimal(4.7),
    });
    expect(state?.measured).toHaveLength(bar.measured.length);
    expect(state?.priorities).toEqual([
      { pattern: 'three-cushion', start: null, priority: 'last' },
    ]);
  });

  it('of printed numbers have every line of the chart at every speed', () => {
    const chart = computeChart(HARBOUR_LANE_BAR);
    const state = withCsv(emptyState(CLUB_CLOTH), rowsOf(formatCsv(printedRows(chart), 'comma')));
    expect(state?.patterns).toEqual(chart.patterns);
    expect(state?.measured).toEqual(
      chart.lines.map(({ pattern, start, numbers }) => ({
        ...{ pattern, start },
        ...Object.fromEntries(SPEEDS.map((speed) => [speed, numbers[speed].printed])),
      })),
    );
    expect(() => printedRows(computeChart(HARBOUR_LANE_BAR, 'opposite'))).toThrow('opposite');
  });

  it('are refused if the chart would have too many lines', () => {
    const lines = (most: number, pattern: string) =>
      Array.from({ length: most }, (_, n) => `${pattern},${n / 1000},,1,,,`).join('\n');
    const rows = rowsOf(`${HEADER}${lines(2000, 'cross-side')}`);
    const state = withCsv(bar, rows);
    expect(state).toBeNull();
    expect(withCsv(emptyState(CLUB_CLOTH), rows)?.measured).toHaveLength(2000);
  });
});

describe('reading a table', () => {
  it('accepts names of patterns, any order of columns, capitals, spaces and empty rows', () => {
    const text =
      'Medium; START ;Pattern\n\n2,2;3;"Foot rail to side"\n;;\n 2.3 ;3.5; FOOT-TO-SIDE \n';
    expect(rowsOf(text)).toEqual([
      {
        pattern: 'foot-to-side',
        start: toDecimal(3),
        numbers: { medium: toDecimal(2.2) },
        priority: null,
        remark: null,
      },
      {
        pattern: 'foot-to-side',
        start: toDecimal(3.5),
        numbers: { medium: toDecimal(2.3) },
        priority: null,
        remark: null,
      },
    ]);
  });

  it('accepts names of patterns with commas', () => {
    const name = PATTERNS.find(({ id }) => id === 'short-long-to-side')?.name;
    expect(rowsOf(`${HEADER}"${name}",2,,1.5,,,`)[0]?.pattern).toBe('short-long-to-side');
  });

  it.each([
    ['nothing', '', 'There is no column pattern.'],
    [
      'no header',
      'cross-side,6,4.9\n',
      'Row 1 has to name the columns, any of pattern, start, soft, medium, firm, priority, remark; “cross-side” is none of them.',
    ],
    ['a column twice', 'pattern,start,soft,Soft\n', 'The column soft is there twice.'],
    ['no start', 'pattern,soft\n', 'There is no column start.'],
    ['an unknown column', 'pattern,start,speed\n', '“speed” is none of them.'],
    ['a key of the prototype', 'pattern,start,__proto__\n', '“__proto__” is none of them.'],
    [
      'an unknown pattern',
      `${HEADER}\r\nover-the-top,1,1,,,,`,
      'Row 3, column pattern: there is no pattern “over-the-top”.',
    ],
    [
      'a word for a number',
      `${HEADER}cross-side,6,,two,,,`,
      'Row 2, column medium: “two” is not a number of diamonds.',
    ],
    [
      'no number',
      `${HEADER}cross-side,6,,NaN,,,`,
      'Row 2, column medium: “NaN” is not a number of diamonds.',
    ],
    [
      'a number with a power',
      `${HEADER}cross-side,6,,1e3,,,`,
      'Row 2, column medium: “1e3” is not a number of diamonds.',
    ],
    [
      'a huge number',
      `${HEADER}cross-side,6,,${'9'.repeat(400)},,,`,
      `Row 2, column medium: “${'9'.repeat(30)}…” is not a number of diamonds.`,
    ],
    [
      'too fine a number',
      `${HEADER}cross-side,6,,4.12345,,,`,
      'Row 2, column medium: “4.12345” is not a number of diamonds.',
    ],
    [
      'a start beyond the rail',
      `${HEADER}long-rail-to-side,4.5,,1,,,`,
      'Row 2, column start: “4.5” is beyond the rail, which ends at 4.',
    ],
    [
      'a number below the rail',
      `${HEADER}cross-side,6,,-0.5,,,`,
      'Row 2, column medium: “-0.5” is beyond the rail, which ends at 8.',
    ],
    ['no start', `${HEADER}cross-side,,,4.8,,,`, 'Row 2, column start: the line has no start.'],
    [
      'a remark on a pattern',
      `${HEADER}cross-side,,,,,,easy`,
      'Row 2, column start: the line has no start.',
    ],
    [
      'an unknown priority',
      `${HEADER}cross-side,6,,,,soon,`,
      'Row 2, column priority: “soon” is none of first, in turn, last.',
    ],
    [
      'a long remark',
      `${HEADER}cross-side,6,,,,,${'x'.repeat(201)}`,
      'Row 2, column remark: the remark is longer than 200 characters.',
    ],
    [
      'a line twice',
      `${HEADER}cross-side,6,,4.8,,,\n\ncross-side,6.0,4.9,,,,`,
      'Row 4 is of the same line as row 2.',
    ],
    [
      'too many cells',
      `${HEADER}cross-side,6,,4,8,,,here`,
      'Row 2 has more cells than there are columns.',
    ],
    [
      'an open quotation',
      `${HEADER}cross-side,6,,4.8,,,"so\n`,
      'Row 2 has a quotation mark out of place.',
    ],
    [
      'a quotation with text after it',
      `${HEADER}cross-side,6,,4.8,,,x\ncross-side,7,,5.2,,,"a"b,c`,
      'Row 3 has a quotation mark out of place.',
    ],
    [
      'a quotation in a cell',
      `${HEADER}cross-side,6,,4.8,,,12" up`,
      'Row 2 has a quotation mark out of place.',
    ],
    ['ten million characters', 'x'.repeat(10_000_000), 'The table is larger than any chart.'],
    [
      'too many rows',
      `${HEADER}${',,,,,,\n'.repeat(7000)}`,
      'The table has more rows than any chart has lines.',
    ],
    ['another kind of file', 'PK\u0003\u0004\0\0\0', 'is none of them.'],
  ])('refuses %s in a sentence', (_name, text, says) => {
    expect(refusal(text)).toContain(says);
  });

  it('reads a very long cell, and a row of quotation marks, without delay', () => {
    const long = `${HEADER}cross-side,6,,4.8,,,"${'a""'.repeat(600_000)}"`;
    expect(refusal(long)).toContain('Row 2, column remark');
    expect(refusal(`${HEADER}${'"'.repeat(1_900_001)}`)).toBe(
      'Row 2 has a quotation mark out of place.',
    );
  });
});
