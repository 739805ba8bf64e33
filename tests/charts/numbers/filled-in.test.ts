/** Charts with some of a line's numbers measured, and where the others come from. */
import { describe, expect, it } from 'vitest';
import {
  type ChartDocument,
  computeChart,
  HARBOUR_LANE,
  lastRevision,
  type MeasuredLine,
  monotoneCubic,
  sharedLines,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import { SPEEDS } from '../../../src/table/index.ts';

function withMeasured(measured: readonly MeasuredLine[], change: Partial<ChartDocument> = {}) {
  const last = { ...lastRevision(HARBOUR_LANE), measured };
  return computeChart({ ...HARBOUR_LANE, ...change, revisions: [last] });
}

const solved = computeChart(HARBOUR_LANE);
const at = (start: number) => ({ pattern: 'cross-side', start: toDecimal(start) }) as const;
const lineAt = (chart: typeof solved, start: number) => {
  const line = chart.lines.find(
    (one) => one.pattern === 'cross-side' && one.start === toDecimal(start),
  );
  if (!line) throw new Error(`no line at ${start}`);
  return line;
};

describe('a line with one number measured', () => {
  it('keeps the computed differences between speeds', () => {
    const line = lineAt(withMeasured([{ ...at(6), medium: toDecimal(4.6) }]), 6);
    const own = lineAt(solved, 6);
    expect(line.source).toBe('measured');
    expect(SPEEDS.map((speed) => line.numbers[speed].source)).toEqual([
      'by window',
      'measured',
      'by window',
    ]);
    for (const speed of SPEEDS) {
      const moved = line.numbers[speed].exact - own.numbers[speed].exact;
      expect(moved).toBeCloseTo(4.6 - own.numbers.medium.exact, 9);
    }
  });

  it('derives soft and firm from medium if that is measured', () => {
    const line = lineAt(
      withMeasured([{ ...at(6), soft: toDecimal(5.2), medium: toDecimal(4.6) }]),
      6,
    );
    const own = lineAt(solved, 6);
    const window = own.numbers.firm.exact - own.numbers.medium.exact;
    expect(line.numbers.firm.exact).toBeCloseTo(4.6 + window, 9);
    expect(line.numbers.soft).toMatchObject({ exact: 5.2, source: 'measured' });
  });

  it('does not change computed lines', () => {
    const chart = withMeasured([{ ...at(6), medium: toDecimal(4.6) }]);
    const others = (one: typeof solved) =>
      one.lines.filter((line) => line.pattern !== 'cross-side' || line.start !== toDecimal(6));
    expect(others(chart)).toEqual(others(solved));
  });

  it('is a gap if its window would lead off the rail', () => {
    const chart = withMeasured([
      { pattern: 'cross-corner', start: toDecimal(1), medium: toDecimal(0) },
    ]);
    const where = { pattern: 'cross-corner', start: toDecimal(1), why: 'no aim on this rail' };
    expect(chart.gaps).toContainEqual(expect.objectContaining(where));
  });
});

describe('on a measured chart', () => {
  const measured: readonly MeasuredLine[] = [
    { ...at(5), soft: toDecimal(4.5), medium: toDecimal(4.4) },
    { ...at(6), medium: toDecimal(4.85) },
    { ...at(7), soft: toDecimal(5.4), medium: toDecimal(5.2), firm: toDecimal(5.1) },
  ];
  const chart = withMeasured(measured, { basis: 'measured' });

  it('a missing number between two measured ones is the monotone cubic through them', () => {
    const { soft } = lineAt(chart, 6).numbers;
    const curve = monotoneCubic([
      { x: 5, y: 4.5 },
      { x: 7, y: 5.4 },
    ]);
    expect(soft).toMatchObject({ exact: curve(6), source: 'interpolated' });
  });

  it('one beyond them keeps the computed difference', () => {
    const { firm } = lineAt(chart, 5).numbers;
    const own = lineAt(solved, 5).numbers;
    expect(firm.source).toBe('by window');
    expect(firm.exact).toBeCloseTo(4.4 + own.firm.exact - own.medium.exact, 4);
  });

  it('only the measured starts are lines', () => {
    expect(chart.lines.map(({ start }) => toNumber(start))).toEqual([5, 6, 7]);
  });
});

describe('lines of two charts', () => {
  it('are shared if no number differs by more than a tenth', () => {
    const own = lineAt(solved, 6).numbers;
    const moved = (by: number) => {
      const numbers = SPEEDS.map((speed) => [
        speed,
        toDecimal(toNumber(own[speed].printed) + (speed === 'firm' ? by : 0)),
      ]);
      const line = { ...at(6), ...Object.fromEntries(numbers) };
      const last = { ...lastRevision(HARBOUR_LANE), measured: [line] };
      return { ...HARBOUR_LANE, id: 'other', revisions: [last] } as const;
    };
    const key = `cross-side ${toDecimal(6)}`;
    const all = solved.lines.length;
    expect(sharedLines(moved(0), HARBOUR_LANE).lines.size).toBe(all);
    expect(sharedLines(moved(0.1), HARBOUR_LANE).lines.has(key)).toBe(true);
    expect(sharedLines(moved(0.2), HARBOUR_LANE).lines.has(key)).toBe(false);
    expect(sharedLines(moved(0.2), HARBOUR_LANE).lines.size).toBe(all - 1);
    expect(sharedLines(moved(-0.2), HARBOUR_LANE)).toMatchObject({ chart: HARBOUR_LANE.id });
  });
});
