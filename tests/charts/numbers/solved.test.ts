import { describe, expect, it } from 'vitest';
import { settingOf } from '../../../src/charts/document/document.ts';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  HARBOUR_LANE_BAR,
  lastRevision,
  launchOf,
  packSolved,
  patternOf,
  toDecimal,
  toNumber,
  unpackSolved,
} from '../../../src/charts/index.ts';
import { solvedFrom, solvedOf } from '../../../src/charts/numbers/solved.ts';
import { CONDITIONS, solveLine } from '../../../src/table/index.ts';

const stored = (document: ChartDocument) =>
  unpackSolved(JSON.parse(JSON.stringify(packSolved(solvedOf(document)))));

/** Numbers that no table has, to see whether they are used. */
function absurd(document: ChartDocument) {
  const { from, columns } = packSolved(solvedOf(document));
  const ones = Object.entries(columns).map(([id, column]) => [id, column.map(() => 1e7)]);
  return unpackSolved({ from, columns: Object.fromEntries(ones) });
}

function revised(document: ChartDocument, change: object): ChartDocument {
  return { ...document, revisions: [{ ...lastRevision(document), ...change }] };
}

describe('numbers solved before', () => {
  it.each([HARBOUR_LANE, HARBOUR_LANE_BAR])('are those of the chart: $name', (document) => {
    const before = stored(document);
    expect(before).toEqual(solvedOf(document));
    expect(computeChart(document, 'through', null, before)).toEqual(computeChart(document));
    expect(computeChart(document, 'opposite', null, before)).toEqual(
      computeChart(document, 'opposite'),
    );
  });

  it('are stored far more precisely than the solver’s tolerance, 5e-5 diamond', () => {
    const chart = computeChart(HARBOUR_LANE);
    const [line] = chart.lines;
    if (!line) throw new Error('no line');
    const pattern = patternOf(line.pattern);
    const launch = launchOf(chart, pattern, 'medium');
    const { aim } = solveLine(settingOf(HARBOUR_LANE), pattern, toNumber(line.start), launch);
    expect(Math.abs((aim ?? 0) - line.numbers.medium.exact)).toBeLessThan(1e-6);
  });

  it('are used instead of solving again', () => {
    const chart = computeChart(HARBOUR_LANE, 'through', null, absurd(HARBOUR_LANE));
    expect(chart.lines.every((line) => line.numbers.firm.exact === 1)).toBe(true);
  });

  const cases: readonly (readonly [string, ChartDocument])[] = [
    ['another table', { ...HARBOUR_LANE, table: '8ft' }],
    ['another step', { ...HARBOUR_LANE, startStep: toDecimal(1) }],
    ['another condition', revised(HARBOUR_LANE, { condition: CONDITIONS['worn and slow'] })],
  ];
  it.each(cases)('are not used for %s', (_name, document) => {
    expect(computeChart(document, 'through', null, absurd(HARBOUR_LANE))).toEqual(
      computeChart(document),
    );
  });

  it('leave measured numbers unchanged, and fill in the others', () => {
    const measured = [{ pattern: 'cross-side', start: toDecimal(6), medium: toDecimal(2.1) }];
    const document = revised(HARBOUR_LANE, { measured });
    expect(computeChart(document, 'through', null, stored(HARBOUR_LANE))).toEqual(
      computeChart(document),
    );
  });

  it('recognize a condition however it is written', () => {
    const { condition } = lastRevision(HARBOUR_LANE);
    const reversed = Object.fromEntries(Object.entries(condition).reverse());
    expect(solvedFrom(revised(HARBOUR_LANE, { condition: reversed }))).toBe(
      solvedFrom(HARBOUR_LANE),
    );
  });
});
