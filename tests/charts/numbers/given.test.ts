/** Sheets of charts with measured numbers, which are given and not solved. */
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  computeChart,
  computeSheet,
  HARBOUR_LANE,
  lastRevision,
  type PatternId,
  patternOf,
  type SheetNumber,
  sheetRequest,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { NAMINGS, type Naming, playIntoPocket, SPEEDS } from '../../../src/table/index.ts';
import { MEASURED_BAR_TABLE, MEASURED_PATTERNS } from '../measured.ts';

/** Error of converting a naming back and forth, diamonds. */
const EXACTLY = 1e-9;

const CORRECTED: ChartDocument = {
  ...HARBOUR_LANE,
  revisions: [
    {
      ...lastRevision(HARBOUR_LANE),
      measured: [
        { pattern: 'cross-side', start: toDecimal(6), medium: toDecimal(4.9) },
        { pattern: 'cross-side', start: toDecimal(6.25), soft: toDecimal(5.1) },
      ],
    },
  ],
};

function sheetOf(document: ChartDocument, id: PatternId, naming: Naming = 'through') {
  const chart = computeChart(document, naming);
  return { chart, sheet: computeSheet(sheetRequest(chart, id, 0.06)) };
}

describe.each(NAMINGS)('a sheet of a chart with measured numbers, %s', (naming) => {
  it.each(MEASURED_PATTERNS)('has exactly the chart’s lines: %s', (id) => {
    const { chart, sheet } = sheetOf(MEASURED_BAR_TABLE, id, naming);
    const lines = chart.lines.filter(({ pattern }) => pattern === id);
    expect(sheet.lines.map(({ start }) => start)).toEqual(lines.map(({ start }) => start));
    for (const [n, line] of lines.entries()) {
      for (const speed of SPEEDS) {
        const number = sheet.lines[n]?.numbers[speed] as SheetNumber;
        expect(Math.abs(number.exact - line.numbers[speed].exact)).toBeLessThan(EXACTLY);
        expect(number.printed).toBe(line.numbers[speed].printed);
        expect(number.source).toBe('measured');
      }
    }
  });

  it('of a computed chart mixes them with solved ones, each with its source', () => {
    const { chart, sheet } = sheetOf(CORRECTED, 'cross-side', naming);
    const lines = chart.lines.filter(({ pattern }) => pattern === 'cross-side');
    expect(lines.map(({ start }) => toNumber(start))).toContain(6.25);
    const numbersOf = (of: (typeof lines)[number] | (typeof sheet.lines)[number]) => [
      of.start,
      ...SPEEDS.map((speed) => {
        const { printed, source } = of.numbers[speed] as SheetNumber;
        return `${printed} ${source}`;
      }),
    ];
    expect(sheet.lines.map(numbersOf)).toEqual(lines.map(numbersOf));
    const six = sheet.lines.find(({ start }) => start === toDecimal(6));
    expect(six?.numbers).toMatchObject({
      soft: { source: 'by window' },
      medium: { source: 'measured' },
      firm: { source: 'by window' },
    });
  });
});

describe('what drops with a measured number', () => {
  it('is in its window exactly if the model’s number drops', () => {
    for (const id of MEASURED_PATTERNS) {
      const { chart, sheet } = sheetOf(MEASURED_BAR_TABLE, id);
      const pattern = patternOf(id);
      for (const line of sheet.lines) {
        for (const speed of SPEEDS) {
          const { exact, model, makeWindow } = line.numbers[speed] as SheetNumber;
          const launch = { ...pattern.stroke, speed: chart.setting.condition.speeds[speed] };
          const played = model ?? exact;
          const run = playIntoPocket(chart.setting, pattern, toNumber(line.start), played, launch);
          const inside = makeWindow !== null && exact >= makeWindow.from && exact <= makeWindow.to;
          expect(inside).toBe(run?.kind === 'drops');
        }
      }
    }
  });

  it('a number far off the pocket still has a drift', () => {
    const { sheet } = sheetOf(MEASURED_BAR_TABLE, 'cross-corner');
    for (const line of sheet.lines) {
      expect(line.atMedium?.drift.perTenth).toBeGreaterThan(0);
      expect(line.atMedium?.touch).toBeGreaterThan(0);
    }
  });

  it('a measured line without one of its numbers keeps the others and says why', () => {
    const measured = [
      { pattern: 'cross-corner', start: toDecimal(0), soft: toDecimal(0) },
    ] as const;
    const revision = { ...lastRevision(MEASURED_BAR_TABLE), measured };
    const { chart, sheet } = sheetOf(
      { ...MEASURED_BAR_TABLE, revisions: [revision] },
      'cross-corner',
    );
    const [gap] = chart.gaps;
    const [line] = sheet.lines;
    expect(chart.lines).toEqual([]);
    expect(line?.numbers.soft).toMatchObject({ printed: 0, source: 'measured' });
    expect(gap?.speed).not.toBe('soft');
    expect(line?.numbers[gap?.speed ?? 'soft']).toBe(gap?.why);
  });
});
