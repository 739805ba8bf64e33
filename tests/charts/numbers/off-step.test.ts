/** Charts with measured lines off the chart's step: counts what it costs to fill them in. */
import { afterAll, beforeEach, describe, expect, it, vi } from 'vitest';
import type { ChartDocument, Decimal, MeasuredLine, PatternId } from '../../../src/charts/index.ts';
import type * as Solve from '../../../src/table/solve.ts';

const solves = vi.hoisted(() => ({ count: 0 }));
vi.mock('../../../src/table/solve.ts', async (original) => {
  const real = await original<typeof Solve>();
  const solveLine: typeof real.solveLine = (...given) => {
    solves.count += 1;
    return real.solveLine(...given);
  };
  return { ...real, solveLine };
});

// Test files in a worker share modules: this one loads its own with the counter, and drops them.
vi.resetModules();
afterAll(() => {
  vi.resetModules();
});
const {
  computeChart,
  HARBOUR_LANE,
  lastRevision,
  PATTERNS,
  readChart,
  rowStarts,
  solvedColumn,
  toDecimal,
  toNumber,
} = await import('../../../src/charts/index.ts');
const { MOST_SOLVED } = await import('../../../src/charts/numbers/off-step.ts');

beforeEach(() => {
  solves.count = 0;
});

/** As many lines of each pattern as wanted, none at the chart's own starts. */
function chartOf(
  each: number,
  numbers: Omit<MeasuredLine, 'pattern' | 'start'>,
  ids: readonly PatternId[] = PATTERNS.map(({ id }) => id),
  change: Partial<ReturnType<typeof lastRevision>> = {},
): ChartDocument {
  const measured = PATTERNS.filter(({ id }) => ids.includes(id)).flatMap(
    ({ id, starts: [first, last] }) =>
      Array.from({ length: each }, (_, n): MeasuredLine => {
        const start = toDecimal(Number((first + ((last - first) * (n + 0.37)) / each).toFixed(4)));
        return { pattern: id, start, ...numbers };
      }),
  );
  const revision = { ...lastRevision(HARBOUR_LANE), patterns: ids, measured, ...change };
  const document = { ...HARBOUR_LANE, basis: 'measured' as const, revisions: [revision] as const };
  // A chart that can come from outside.
  expect(readChart(document)).toMatchObject({ ok: true });
  return document;
}

const ONE = { medium: toDecimal(2) };
/** A chart may have at most 2000 lines (limits.ts). */
const MOST_EACH = Math.floor(2000 / PATTERNS.length);

describe('the cost of filling in the lines of a chart', () => {
  it('is bounded by the eighths of its patterns, however many lines there are', () => {
    const counts = [MOST_EACH / 2, MOST_EACH].map((each) => {
      solves.count = 0;
      const chart = computeChart(chartOf(Math.floor(each), ONE));
      expect(chart.lines.length).toBeGreaterThan(500);
      return solves.count;
    });
    expect(counts[1]).toBe(counts[0]);
    expect(counts[1]).toBeLessThanOrEqual(PATTERNS.length * MOST_SOLVED * 3);
  });

  it('is zero for lines with all their numbers', () => {
    const all = { soft: toDecimal(2), medium: toDecimal(2), firm: toDecimal(2) };
    computeChart(chartOf(20, all));
    expect(solves.count).toBe(0);
  });

  it('is one solved number at each speed', () => {
    expect(computeChart(chartOf(20, ONE, ['cross-corner'])).lines).toHaveLength(20);
    expect(solves.count).toBe(60);
  });

  it('ends at the first speed without a number', () => {
    const { condition } = lastRevision(HARBOUR_LANE);
    const slow = { ...condition, speeds: { soft: 0.5, medium: 0.6, firm: 0.7 } };
    const chart = computeChart(chartOf(20, ONE, ['cross-corner'], { condition: slow }));
    expect(chart.gaps).toHaveLength(20);
    expect(new Set(chart.gaps.map(({ speed }) => speed))).toEqual(new Set(['soft']));
    expect(solves.count).toBe(20);
  });

  it('is bounded in the editor, too', () => {
    const document = chartOf(1000, ONE, ['cross-corner']);
    const state = lastRevision(document);
    const starts = rowStarts(document, state, 'cross-corner');
    expect(starts.length).toBeGreaterThan(1000);
    solvedColumn(document, state, 'cross-corner', starts);
    expect(solves.count).toBeLessThanOrEqual(3 * MOST_SOLVED);
  });
});

describe('numbers read off the eighths', () => {
  it.each(PATTERNS.map(({ id }) => id))('of %s are those solved one by one', (id) => {
    const many = computeChart(chartOf(MOST_SOLVED + 1, ONE, [id]));
    const few = chartOf(MOST_SOLVED + 1, ONE, [id]);
    const { measured } = lastRevision(few);
    const some = measured.filter((_, n) => n % 7 === 0);
    const revision = { ...lastRevision(few), measured: some };
    const alone = computeChart({ ...few, revisions: [revision] });
    const byStart = new Map<Decimal, (typeof many.lines)[number]>(
      many.lines.map((line) => [line.start, line]),
    );
    const both = alone.lines.filter(({ start }) => byStart.has(start));
    // A start next to an eighth without a number has none.
    expect(both.length).toBeGreaterThanOrEqual(alone.lines.length - 3);
    expect(both.length).toBeGreaterThan(0);
    for (const line of both)
      for (const speed of ['soft', 'firm'] as const) {
        const read = byStart.get(line.start)?.numbers[speed].exact ?? Number.NaN;
        expect(Math.abs(read - line.numbers[speed].exact), `${toNumber(line.start)}`).toBeLessThan(
          0.015,
        );
      }
  });
});
