import { describe, expect, it } from 'vitest';
import { type Command, parseOptions } from '../../bin/options.ts';
import { refuse } from '../../bin/read.ts';
import type { LineRecord } from '../../bin/records.ts';
import { run } from '../../bin/run.ts';
import { computeSheet, type Sheet, toDecimal, toNumber } from '../../src/charts/index.ts';
import { SPEEDS } from '../../src/table/index.ts';
import { parseCsv } from './csv.ts';
import { parseTable } from './markdown.ts';

/** Full lines, gaps (short-long has starts without a number at some speed), a kick, another naming. */
const CALLS = [
  '--pattern foot-to-side --starts 1:8:1',
  '--pattern short-long-to-corner --starts 1:5:1 --step 0.05',
  '--pattern cross-side --target 1.5',
  '--pattern three-cushion --naming opposite --table 7ft --starts 4,6,8',
  '--pattern foot-to-far-corner --speeds 0.6,0.7,0.8 --starts 3,4',
] as const;

describe.each(CALLS)('%s', (call) => {
  const { sheet, setting } = sheetOf(call);
  const records = JSON.parse(printed(call, 'json')) as LineRecord[];

  it('JSON has the numbers of the sheet to the last bit, or why there is none', () => {
    expect(records.length).toBe(sheet.lines.length);
    records.forEach((record, n) => {
      const line = sheet.lines[n];
      if (!line) throw new Error(`no line ${n}`);
      expect(record.start).toBe(toNumber(line.start));
      expect(record.anchor).toBe(line.anchor);
      expect(record.verdict).toBe(line.verdict?.kind ?? null);
      expect(record.reason).toBe(line.verdict?.reason ?? null);
      expect(record.best).toBe(line.verdict?.best ?? null);
      expect(record.touch).toBe(line.atMedium?.touch ?? null);
      expect(record.entryAngleDeg).toBe(line.atMedium?.entryAngleDeg ?? null);
      for (const speed of SPEEDS) {
        const number = line.numbers[speed];
        const none = typeof number === 'string';
        expect(record[speed]).toBe(none ? null : number.exact);
        expect(record.why[speed]).toBe(none ? number : null);
        expect(record.printed[speed]).toBe(none ? null : toNumber(number.printed));
        expect(record.makeWindow[speed]).toEqual(none ? null : number.makeWindow);
      }
    });
  });

  it('JSON has the drift in diamonds of a long rail, an eighth of the table’s length', () => {
    records.forEach(({ drift }, n) => {
      const { perTenth = null, halfWay = null } = sheet.lines[n]?.atMedium?.drift ?? {};
      const diamond = setting.table.length / 8;
      for (const [given, metres] of [
        [drift.perTenth, perTenth],
        [drift.halfWay, halfWay],
      ] as const) {
        if (metres === null) expect(given).toBeNull();
        else expect(given).toBeCloseTo(metres / diamond, 12);
      }
    });
  });

  it('CSV has every value of the JSON in the column of its path, and no other', () => {
    const [head = [], ...rows] = parseCsv(printed(call, 'csv'));
    expect(rows.length).toBe(records.length);
    const paths = new Set(records.flatMap((record) => leaves(record).map(([path]) => path)));
    for (const path of paths) expect(head).toContain(path);
    rows.forEach((row, n) => {
      const values = new Map(leaves(records[n]));
      head.forEach((path, k) => {
        const value = values.get(path) ?? null;
        expect(row[k], path).toBe(value === null ? '' : String(value));
      });
    });
  });

  it('Markdown has the printed numbers, or why there is none', () => {
    const [head = [], ...rows] = parseTable(printed(call, 'md'));
    expect(rows.length).toBe(records.length);
    rows.forEach((row, n) => {
      const record = records[n];
      const cell = (name: string) => row[head.indexOf(name)] ?? '';
      if (!record) throw new Error(`no record ${n}`);
      expect(Number(cell('start'))).toBe(record.start);
      for (const speed of SPEEDS) {
        if (record[speed] === null) expect(cell(speed)).toBe(record.why[speed]);
        else expect(Number(cell(speed))).toBe(record.printed[speed]);
        const ends = record.makeWindow[speed];
        const [from, to] = cell(`drops, ${speed}`).split('–').map(Number);
        if (!ends) expect(cell(`drops, ${speed}`)).toBe('–');
        // Half of the last of the two decimals shown.
        else expect(Math.max(gap(from, ends.from), gap(to, ends.to))).toBeLessThanOrEqual(0.00501);
      }
      expect(cell('verdict')).toBe(record.verdict ?? '–');
      expect(cell('anchor')).toBe(record.anchor ? 'anchor' : '');
      const angle = record.entryAngleDeg;
      if (angle === null) expect(cell('entry')).toBe('–');
      else expect(gap(Number.parseFloat(cell('entry')), angle)).toBeLessThanOrEqual(0.5);
    });
  });
});

describe('the calls above', () => {
  it('give lines with all, some and no numbers, with and without windows', () => {
    const all = CALLS.flatMap((call) => JSON.parse(printed(call, 'json')) as LineRecord[]);
    const missing = all.map((line) => SPEEDS.filter((speed) => line[speed] === null).length);
    expect(new Set(missing)).toEqual(new Set([0, 1, 2, 3]));
    expect(new Set(all.map(({ verdict }) => verdict))).toContain(null);
    expect(new Set(all.map(({ anchor }) => anchor))).toEqual(new Set([true, false]));
  });
});

describe('printed numbers', () => {
  it('are whole steps within half a step of the unrounded ones', () => {
    for (const step of [0.1, 0.05]) {
      const call = `--pattern cross-corner --step ${step}`;
      for (const line of JSON.parse(printed(call, 'json')) as LineRecord[]) {
        for (const speed of SPEEDS) {
          const [exact, number] = [line[speed], line.printed[speed]];
          if (exact === null || number === null) throw new Error('cross-corner has all numbers');
          expect(gap(exact, number)).toBeLessThanOrEqual(step / 2 + 1e-9);
          expect(toDecimal(number) % toDecimal(step)).toBe(0);
        }
      }
    }
  });
});

type Leaf = string | number | boolean | null;

/** Every plain value of a record with its path: keys joined by points. */
function leaves(value: unknown, path = ''): readonly (readonly [path: string, value: Leaf])[] {
  if (typeof value !== 'object' || value === null) {
    // A missing window has no ends.
    return path.startsWith('makeWindow') && value === null ? [] : [[path, value as Leaf]];
  }
  return Object.entries(value).flatMap(([key, inner]) =>
    leaves(inner, path === '' ? key : `${path}.${key}`),
  );
}

function gap(a: number | undefined, b: number): number {
  return Math.abs((a ?? Number.NaN) - b);
}

function commandOf(call: string): Command {
  const parsed = parseOptions(call.split(' '), () => refuse('no file'));
  if (!parsed.ok) throw new Error(parsed.say);
  return parsed.value;
}

function sheetOf(call: string): {
  sheet: Sheet;
  setting: Parameters<typeof computeSheet>[0]['setting'];
} {
  const { request } = commandOf(call) as Extract<Command, { what: 'sheet' }>;
  return { sheet: computeSheet(request), setting: request.setting };
}

function printed(call: string, format: string): string {
  return run([...call.split(' '), '--format', format], () => refuse('no file')).stdout;
}
