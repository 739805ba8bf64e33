/** The editor's rows show the chart's numbers, and suggestions where it has none. */
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  computeChart,
  computedLines,
  type Decimal,
  editorRows,
  HARBOUR_LANE,
  lastRevision,
  type MeasuredLine,
  type PatternId,
  rowStarts,
  setLines,
  solvedColumn,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { SPEEDS } from '../../../src/table/index.ts';
import { MEASURED_BAR_TABLE, MEASURED_PATTERNS } from '../measured.ts';

const SPARSE: readonly MeasuredLine[] = [
  { pattern: 'cross-corner', start: toDecimal(1), medium: toDecimal(0.5) },
  { pattern: 'cross-corner', start: toDecimal(3), soft: toDecimal(1.4), medium: toDecimal(1.3) },
  { pattern: 'cross-corner', start: toDecimal(4.25), firm: toDecimal(1.6) },
  { pattern: 'cross-corner', start: toDecimal(6), soft: toDecimal(2.9), medium: toDecimal(2.6) },
];

/** Difference between a number solved with others and alone, diamonds (table/solve.ts). */
const SOLVED = 5e-5;

function withMeasured(document: ChartDocument, measured: readonly MeasuredLine[]): ChartDocument {
  return { ...document, revisions: [{ ...lastRevision(document), measured }] };
}

function rowsOf(document: ChartDocument, id: PatternId, others: readonly Decimal[] = []) {
  const state = lastRevision(document);
  const column = solvedColumn(document, state, id, rowStarts(document, state, id, others));
  return editorRows(document, state, id, column, 0.1);
}

describe.each([
  ['a computed chart', HARBOUR_LANE, 'cross-corner'],
  [
    'a computed chart with some numbers measured',
    withMeasured(HARBOUR_LANE, SPARSE),
    'cross-corner',
  ],
  ['a measured chart', MEASURED_BAR_TABLE, 'foot-to-side'],
  ['a measured chart with gaps', withMeasured(MEASURED_BAR_TABLE, SPARSE), 'cross-corner'],
] as const)('the rows of %s', (_, document, id) => {
  it('have every line of the chart, with its numbers and their sources', () => {
    const rows = rowsOf(document, id);
    const lines = computeChart(document).lines.filter(({ pattern }) => pattern === id);
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) {
      const row = rows.find(({ start }) => start === line.start);
      for (const speed of SPEEDS) {
        const { exact, source } = line.numbers[speed];
        const cell = row?.cells[speed];
        if (source === 'measured') expect(toNumber(cell?.own as Decimal)).toBe(exact);
        else {
          expect(cell?.filled?.source).toBe(source);
          expect(Math.abs((cell?.filled?.aim ?? 99) - exact)).toBeLessThan(SOLVED);
        }
      }
    }
  });
});

describe('a row', () => {
  it('without a line of a measured chart shows interpolated numbers', () => {
    const row = rowsOf(MEASURED_BAR_TABLE, 'foot-to-side').find(
      ({ start }) => start === toDecimal(2.5),
    );
    // Between the measured 1.45 at 2 and 1.75 at 3.
    expect(row?.cells.soft.own).toBeNull();
    expect(row?.cells.soft.filled?.source).toBe('interpolated');
    expect(row?.cells.soft.filled?.aim).toBeGreaterThan(1.45);
    expect(row?.cells.soft.filled?.aim).toBeLessThan(1.75);
  });

  it('exists for any requested start, even off the step', () => {
    const starts = rowsOf(HARBOUR_LANE, 'cross-side', [toDecimal(6.25)]).map(({ start }) => start);
    expect(starts).toContain(toDecimal(6.25));
    expect(starts).toEqual([...starts].sort((a, b) => a - b));
  });

  // Bug: nothing showed that a typed number made no line, and removed a computed one.
  it.each([
    // No soft shot gets there, which is the pattern's own gap; and a derived number beyond the rail.
    ['long-short-to-corner', 1.5, { medium: 2.9 }, 'soft'],
    ['foot-to-side', 8, { medium: 3.9 }, 'firm'],
  ] as const)(
    'with a number but no line says which number is missing: %s',
    (pattern, at, own, missing) => {
      const start = toDecimal(at);
      const line: MeasuredLine = { pattern, start, medium: toDecimal(own.medium) };
      const rowOf = (one: MeasuredLine) => {
        const document = withMeasured(HARBOUR_LANE, [one]);
        const chart = computeChart(document);
        const isLine = chart.lines.some(
          (other) => other.pattern === pattern && other.start === start,
        );
        const row = rowsOf(document, pattern).find((other) => other.start === start);
        return { missing: row?.missing?.speed ?? null, isLine };
      };
      expect(rowOf(line)).toEqual({ missing, isLine: false });
      const whole = { ...line, soft: toDecimal(2.5), firm: toDecimal(4) };
      expect(rowOf(whole)).toEqual({ missing: null, isLine: true });
    },
  );

  it('shows the expected number if its own does not fit the others', () => {
    const wrong = withMeasured(
      MEASURED_BAR_TABLE,
      (lastRevision(MEASURED_BAR_TABLE).measured ?? []).map((line) =>
        line.pattern === 'cross-corner' && line.start === toDecimal(3)
          ? { ...line, medium: toDecimal(3.1) }
          : line,
      ),
    );
    const rows = rowsOf(wrong, 'cross-corner');
    const flagged = rows.flatMap(({ start, cells }) =>
      SPEEDS.flatMap((speed) => (cells[speed].expected === null ? [] : [`${start} ${speed}`])),
    );
    expect(flagged).toEqual([`${toDecimal(3)} medium`]);
    // It was measured as 1.3.
    const three = rows.find(({ start }) => start === toDecimal(3));
    expect(Math.abs((three?.cells.medium.expected ?? 9) - 1.3)).toBeLessThan(0.1);
  });
});

describe('computed numbers as measured lines', () => {
  it.each(MEASURED_PATTERNS)('are the chart’s to a thousandth: %s', (id) => {
    const state = lastRevision(HARBOUR_LANE);
    const column = solvedColumn(HARBOUR_LANE, state, id, rowStarts(HARBOUR_LANE, state, id));
    const filled = setLines(state, computedLines(id, column));
    const lines = computeChart(HARBOUR_LANE).lines.filter(({ pattern }) => pattern === id);
    for (const line of lines) {
      const given = filled.measured.find(({ start }) => start === line.start);
      for (const speed of SPEEDS) {
        const off = toNumber(given?.[speed] as Decimal) - line.numbers[speed].exact;
        expect(Math.abs(off)).toBeLessThanOrEqual(0.0005 + 1e-9);
      }
    }
  });
});
