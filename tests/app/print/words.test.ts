import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fileNameOf } from '../../../src/app/device/file-name.ts';
import {
  anchorsFirst,
  barLength,
  countedWords,
  gapSentences,
  type Origin,
  originWords,
  type PrintRow,
  remarkSentences,
  rowsOf,
  scaleWords,
} from '../../../src/app/print/words.ts';
import { computeChart, HARBOUR_LANE, toDecimal } from '../../../src/charts/index.ts';
import { SPEEDS } from '../../../src/table/index.ts';
import { MEASURED_BAR_TABLE } from '../../charts/measured.ts';

const computed = computeChart(HARBOUR_LANE);
const measured = computeChart(MEASURED_BAR_TABLE);
const BOUND = 0.06;

describe('rows', () => {
  it('have the numbers of the chart in the chosen columns', () => {
    const rows = rowsOf(computed, 'cross-side', ['firm', 'soft'], BOUND);
    const lines = computed.lines.filter(({ pattern }) => pattern === 'cross-side');
    expect(rows.map(({ start }) => start)).toEqual(lines.map(({ start }) => start));
    expect(rows.map(({ numbers }) => numbers.map(({ printed }) => printed))).toEqual(
      lines.map(({ numbers }) => [numbers.firm.printed, numbers.soft.printed]),
    );
    expect(originWords(rows)).toBeNull();
  });

  it('of a measured chart are its measured lines as written', () => {
    const rows = rowsOf(measured, 'cross-side', SPEEDS, BOUND);
    // The third row of cross-side in tests/charts/measured.ts.
    expect(rows[2]).toMatchObject({
      start: toDecimal(7),
      numbers: [5.4, 5.25, 5.1].map((one) => ({ printed: toDecimal(one), origin: 'measured' })),
    });
    expect(originWords(rows)).toBe('All numbers were measured on the table.');
  });

  it('are none for a pattern without lines', () => {
    expect(rowsOf(measured, 'three-cushion', SPEEDS, BOUND)).toEqual([]);
  });

  it('begin and end with an anchor, because nothing can be derived beyond', () => {
    for (const id of computed.patterns) {
      const rows = rowsOf(computed, id, SPEEDS, BOUND);
      expect(rows[0]?.anchor, id).toBe(true);
      expect(rows.at(-1)?.anchor, id).toBe(true);
    }
  });
});

const rowArb: fc.Arbitrary<PrintRow> = fc.record({
  start: fc.nat(80).map((n) => toDecimal(n / 10)),
  anchor: fc.boolean(),
  numbers: fc.constant([]),
});

describe('a number’s origin', () => {
  const row = (...origins: readonly Origin[]): PrintRow => ({
    start: toDecimal(1),
    anchor: false,
    numbers: origins.map((origin) => ({ printed: toDecimal(2), origin })),
  });

  it.each([
    [[row('computed', 'computed')], null],
    [[row('measured')], 'All numbers were measured on the table.'],
    [[row('computed'), row('measured')], 'Underlined: measured on the table.'],
    [
      [row('measured', 'filled in')],
      'Underlined: measured on the table. Dotted: filled in from measured numbers.',
    ],
    [[], null],
  ])('%#: is told where it differs from others', (rows, words) => {
    expect(originWords(rows)).toBe(words);
  });

  it('is filled in if a speed was not measured', () => {
    const [last] = MEASURED_BAR_TABLE.revisions;
    const medium = { pattern: 'cross-side', start: toDecimal(6), medium: toDecimal(4.85) } as const;
    const chart = computeChart({
      ...MEASURED_BAR_TABLE,
      revisions: [{ ...last, measured: [medium] }],
    });
    const [line] = rowsOf(chart, 'cross-side', SPEEDS, BOUND);
    expect(line?.numbers.map(({ origin }) => origin)).toEqual([
      'filled in',
      'measured',
      'filled in',
    ]);
  });
});

describe('rows without enough room', () => {
  it('put anchors first and count what is left out', () => {
    fc.assert(
      fc.property(fc.array(rowArb), fc.nat(30), (rows, most) => {
        const { shown, left } = anchorsFirst(rows, most);
        expect(shown.length + left).toBe(rows.length);
        expect(shown.length).toBeLessThanOrEqual(most);
        const firstOther = shown.findIndex(({ anchor }) => !anchor);
        const after = firstOther < 0 ? [] : shown.slice(firstOther);
        expect(after.some(({ anchor }) => anchor)).toBe(false);
        if (left === 0) expect(new Set(shown)).toEqual(new Set(rows));
      }),
    );
  });
});

describe('starts without a line', () => {
  it('appear once each, with the reason', () => {
    for (const id of computed.patterns) {
      const told =
        gapSentences(computed, id)
          .join(' ')
          .match(/\d+\.\d+/g) ?? [];
      const gaps = computed.gaps.filter(({ pattern }) => pattern === id);
      expect(told.map(Number).sort(), id).toEqual(gaps.map(({ start }) => start / 10_000).sort());
    }
  });

  it('share a sentence for the same reason', () => {
    const gap = { pattern: 'cross-side', speed: 'soft', why: 'does not reach' } as const;
    const gaps = [5, 5.5].map((start) => ({ ...gap, start: toDecimal(start) }));
    expect(gapSentences({ ...computed, gaps }, 'cross-side')).toEqual([
      'No line from 5.0, 5.5: the ball does not reach at soft speed.',
    ]);
  });
});

describe('remarks', () => {
  const saying = (texts: readonly string[]) => {
    const remarks = texts.map((text, n) => ({
      pattern: 'cross-side' as const,
      start: toDecimal(5 + n / 2),
      text,
    }));
    return { ...computed, state: { ...computed.state, remarks } };
  };

  it('come with their lines, for the pattern alone', () => {
    expect(remarkSentences(saying(['hug the rail']), 'cross-side')).toEqual([
      'From 5.0: hug the rail',
    ]);
    expect(remarkSentences(saying(['hug the rail']), 'cross-corner')).toEqual([]);
  });

  it('without room are counted', () => {
    const long = 'x'.repeat(200);
    const told = remarkSentences(saying([long, long, 'short', long]), 'cross-side');
    expect(told).toEqual([`From 5.0: ${long}`, '3 more remarks are in the chart.']);
  });
});

describe('words', () => {
  it('name the ends from which rails are counted', () => {
    // docs/numbers.md: long rails from the foot, short rails from the start's side.
    expect(countedWords('foot-to-side')).toEqual({
      starts: 'left rail, from the foot',
      numbers: 'foot rail, from the left',
    });
  });

  it('give the length of the bar on the table and on the sheet', () => {
    // 20 in are 0.508 m; a fifteenth of 20 in is 1.33 in, of 50 cm 3.33 cm.
    expect(barLength('in')).toBeCloseTo(0.508, 9);
    expect(barLength('cm')).toBe(0.5);
    expect(scaleWords(15, 'in')).toContain('20 in of the table and 1.33 in of this sheet');
    expect(scaleWords(15, 'cm')).toContain('50 cm of the table and 3.33 cm of this sheet');
    expect(scaleWords(20, 'cm')).toContain('Scale 1:20.');
  });
});

describe('names of files', () => {
  it.each([
    [
      ['Harbour Lane, 9 ft league table', 'cross-side'],
      'harbour-lane-9-ft-league-table-cross-side',
    ],
    [['Café Übung'], 'cafe-ubung'],
    [['../../etc/passwd'], 'etc-passwd'],
    [['<b>"x"</b>\u0000'], 'b-x-b'],
    [['台'], 'figure'],
    [[''], 'figure'],
  ])('%j: %s', (parts, name) => {
    expect(fileNameOf(...parts)).toBe(name);
  });

  it('have safe characters and a safe length, whatever the input', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string({ unit: 'binary', maxLength: 100 }), { maxLength: 4 }),
        (parts) => {
          expect(fileNameOf(...parts)).toMatch(/^[a-z0-9]+(-[a-z0-9]+)*$/);
          expect(fileNameOf(...parts).length).toBeLessThanOrEqual(80);
        },
      ),
    );
  });
});
