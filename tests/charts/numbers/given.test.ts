/** Sheets of charts with measured numbers: what is given is not solved again. */
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  computeChart,
  computeSheet,
  givenLines,
  HARBOUR_LANE,
  lastRevision,
  type PatternId,
  patternOf,
  type SheetNumber,
  sheetStarts,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { NAMINGS, type Naming, playIntoPocket, SPEEDS } from '../../../src/table/index.ts';
import { MEASURED_BAR_TABLE, MEASURED_PATTERNS } from '../measured.ts';

/** A tenth of a ten-thousandth: a naming converted and converted back. */
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
  const pattern = patternOf(id);
  const sheet = computeSheet({
    setting: chart.setting,
    route: pattern,
    starts: sheetStarts(chart, id),
    printStep: document.printStep,
    naming,
    stroke: pattern.stroke ?? {},
    anchorBound: 0.06,
    given: givenLines(chart, id),
  });
  return { chart, sheet };
}

describe.each(NAMINGS)('a sheet of a chart with measured numbers, %s', (naming) => {
  it.each(MEASURED_PATTERNS)('has the chart’s own lines and no other: %s', (id) => {
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

  it('of a computed chart has them between solved ones, each with its source', () => {
    const { chart, sheet } = sheetOf(CORRECTED, 'cross-side', naming);
    const lines = chart.lines.filter(({ pattern }) => pattern === 'cross-side');
    expect(lines.map(({ start }) => toNumber(start))).toContain(6.25);
    const said = (of: (typeof lines)[number] | (typeof sheet.lines)[number]) => [
      of.start,
      ...SPEEDS.map((speed) => {
        const { printed, source } = of.numbers[speed] as SheetNumber;
        return `${printed} ${source}`;
      }),
    ];
    expect(sheet.lines.map(said)).toEqual(lines.map(said));
    const six = sheet.lines.find(({ start }) => start === toDecimal(6));
    expect(six?.numbers).toMatchObject({
      soft: { source: 'by window' },
      medium: { source: 'measured' },
      firm: { source: 'by window' },
    });
  });
});

describe('what drops with a measured number', () => {
  it('lies in its window just if the pocket takes the model’s number', () => {
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

  it('a number that lies far off the pocket has a drift all the same', () => {
    const { sheet } = sheetOf(MEASURED_BAR_TABLE, 'cross-corner');
    for (const line of sheet.lines) {
      expect(line.atMedium?.drift.perTenth).toBeGreaterThan(0);
      expect(line.atMedium?.touch).toBeGreaterThan(0);
    }
  });

  it('a measured line that lacks a number says why, and keeps those that it has', () => {
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
