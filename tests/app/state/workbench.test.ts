import { describe, expect, it } from 'vitest';
import { createWorkbench } from '../../../src/app/state/workbench.ts';
import {
  computeChart,
  computeSheet,
  HARBOUR_LANE,
  lastRevision,
  type SheetRequest,
  toDecimal,
} from '../../../src/charts/index.ts';
import { CONDITIONS, TABLES } from '../../../src/table/index.ts';
import type { Solver } from '../../../src/workers/index.ts';

const chart = computeChart(HARBOUR_LANE);
const tolerance = toDecimal(0.1);

/** A solver that answers at once, in the same thread, and records its requests. */
function setUp() {
  const asked: (readonly SheetRequest[])[] = [];
  const solver: Solver = {
    ask: (sheets, done) => {
      asked.push(sheets);
      done({ ok: true, answer: sheets.map(computeSheet) });
    },
  };
  return { bench: createWorkbench(solver, chart), asked };
}

describe('the workbench', () => {
  it('begins with the chart’s own table and the chart’s own numbers', () => {
    const { bench } = setUp();
    bench.show(chart, 'cross-side', tolerance);
    expect(bench.changed.value).toBe(false);
    const printed = bench.here.value?.sheet.lines.map((line) => {
      const number = line.numbers.medium;
      return typeof number === 'string' ? null : number.printed;
    });
    const own = chart.lines.filter((line) => line.pattern === 'cross-side');
    expect(printed).toEqual(own.map((line) => line.numbers.medium.printed));
  });

  it('keeps the table and drops the stroke for another pattern', () => {
    const { bench } = setUp();
    bench.show(chart, 'cross-side', tolerance);
    bench.change({ table: '7ft', stroke: { follow: 0.3 }, target: 2 });
    bench.show(chart, 'three-cushion', tolerance);
    expect(bench.tried.value).toMatchObject({
      table: '7ft',
      stroke: { running: 0.4 },
      target: 'pocket',
    });
    expect(bench.here.value?.pattern).toBe('three-cushion');
  });

  it('shows a measured chart’s own numbers, and solves those of a table being tried', () => {
    const { bench, asked } = setUp();
    const measured = computeChart({
      ...HARBOUR_LANE,
      revisions: [
        {
          ...lastRevision(HARBOUR_LANE),
          measured: [{ pattern: 'cross-side', start: toDecimal(6), medium: toDecimal(4.9) }],
        },
      ],
    });
    const six = () =>
      bench.here.value?.sheet.lines.find(({ start }) => start === toDecimal(6))?.numbers.medium;
    bench.show(measured, 'cross-side', tolerance);
    expect(six()).toMatchObject({ printed: 49_000, source: 'measured' });
    bench.change({ against: '7ft' });
    expect(six()).toMatchObject({ source: 'measured' });
    expect(asked.at(-1)?.[1]?.given).toBeUndefined();
    bench.change({ pockets: 'tight' });
    expect(six()).toMatchObject({ source: 'computed' });
    bench.reset();
    expect(six()).toMatchObject({ printed: 49_000, source: 'measured' });
  });

  it('resets to the chart’s table and keeps the comparison', () => {
    const { bench } = setUp();
    bench.show(chart, 'cross-side', tolerance);
    bench.change({ condition: CONDITIONS['dead cushions'], pockets: 'tight', against: '7ft' });
    expect(bench.changed.value).toBe(true);
    bench.reset();
    expect(bench.changed.value).toBe(false);
    expect(bench.tried.value.against).toBe('7ft');
    expect(bench.tried.value.condition).toEqual(chart.setting.condition);
  });

  it('compares with another table in the same condition', () => {
    const { bench, asked } = setUp();
    bench.show(chart, 'cross-side', tolerance);
    expect(bench.there.value).toBeNull();
    bench.change({ against: '7ft' });
    const [here, there] = asked.at(-1) ?? [];
    expect(there?.setting.condition).toBe(here?.setting.condition);
    expect(there?.setting.table.length).toBe(TABLES['7ft'].length);
    expect(bench.changed.value).toBe(false);
    expect(bench.there.value?.sheet.lines).toHaveLength(bench.here.value?.sheet.lines.length ?? -1);
  });

  it('does not show the sheet of a pattern that it no longer shows', () => {
    const waiting: (() => void)[] = [];
    const solver: Solver = {
      ask: (sheets, done) =>
        waiting.push(() => done({ ok: true, answer: sheets.map(computeSheet) })),
    };
    const bench = createWorkbench(solver, chart);
    bench.show(chart, 'cross-side', tolerance);
    bench.show(chart, 'up-and-back', tolerance);
    waiting[0]?.();
    expect(bench.here.value).toBeNull();
    waiting[1]?.();
    expect(bench.here.value?.pattern).toBe('up-and-back');
  });

  it('shows the solver’s message if it fails', () => {
    const bench = createWorkbench(
      { ask: (_, done) => done({ ok: false, say: 'It broke.' }) },
      chart,
    );
    bench.show(chart, 'cross-side', tolerance);
    expect(bench.problem.value).toBe('It broke.');
  });
});
