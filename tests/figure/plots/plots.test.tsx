import { describe, expect, it } from 'vitest';
import { HoldFigure, holdPercent } from '../../../src/figure/hold-figure.tsx';
import { CalibrationPlot } from '../../../src/figure/plots/calibration.tsx';
import { CurvePlot } from '../../../src/figure/plots/curve.tsx';
import { LoadPlot } from '../../../src/figure/plots/load.tsx';
import { MIRRORS, type Mirror, TABLES } from '../../../src/table/index.ts';
import { type Drawn, drawnBy } from '../elements.ts';

const words = (day: number) => `day ${day}`;

describe('the calibration plot', () => {
  const bin = (predicted: number, right: number, count: number) => ({
    predicted,
    right,
    low: right - 0.1,
    high: Math.min(1, right + 0.1),
    count,
  });
  const drawn = drawnBy(
    <CalibrationPlot label="said" bins={[bin(0.6, 0.6, 9), bin(0.8, 0.7, 36), bin(0.9, 1, 0)]} />,
  );
  const dots = drawn.filter(({ tag }) => tag === 'circle').map(({ props }) => props);

  it('has a dot for each forecast that was tested', () => {
    expect(dots).toHaveLength(2);
  });

  it('puts forecasts that came true on the diagonal, and those that were too high below it', () => {
    const ideal = pathOf(drawn, 'ideal');
    const [x0 = 0, y0 = 0, x1 = 0, y1 = 0] = ideal;
    const onIdeal = (x: number) => y0 + ((x - x0) / (x1 - x0)) * (y1 - y0);
    expect(dots[0]?.cy).toBeCloseTo(onIdeal(Number(dots[0]?.cx)), 6);
    expect(Number(dots[1]?.cy)).toBeGreaterThan(onIdeal(Number(dots[1]?.cx)));
  });

  it('draws a larger dot for more answers', () => {
    expect(Number(dots[1]?.r)).toBeGreaterThan(Number(dots[0]?.r));
  });

  it('gives the same numbers in a table', () => {
    expect(cellsOf(drawn)).toEqual([
      '60 %',
      '60 %',
      '50 %–70 %',
      '9',
      '80 %',
      '70 %',
      '60 %–80 %',
      '36',
    ]);
  });

  it('is empty without answers', () => {
    expect(
      drawnBy(<CalibrationPlot label="none" bins={[]} />).some(({ tag }) => tag === 'circle'),
    ).toBe(false);
  });
});

describe('the curve of known lines', () => {
  const curve = [10, 12, 14, 16].map((held, n) => ({ day: 100 + n, held }));
  const decay = [10, 9, 8, 7, 6].map((held, n) => ({ day: 100 + n, held }));
  const drawn = drawnBy(
    <CurvePlot
      curve={curve}
      decay={decay}
      mark={{ day: 103, low: 14, high: 18 }}
      of={20}
      dayWords={words}
      label="said"
    />,
  );

  it('rises to the day, and falls without answers', () => {
    const lines = drawn.filter(({ props }) => String(props.class).startsWith('curve'));
    const [down, up] = lines.map(({ props }) => points(String(props.d)));
    const heights = (some: typeof up) => some?.filter((_, n) => n % 2 === 1) ?? [];
    expect(heights(up)).toEqual([...heights(up)].sort((a, b) => b - a));
    expect(heights(down)).toEqual([...heights(down)].sort((a, b) => a - b));
    expect(heights(up)).toHaveLength(4);
    expect(heights(down)).toHaveLength(5);
  });

  it('marks the day, with the expected number between its bounds', () => {
    const [x] = pathOf(drawn, 'day-mark');
    const dot = drawn.find(({ tag }) => tag === 'circle');
    expect(dot?.props.cx).toBe(x);
    const whisker = drawn.find(({ tag, props }) => tag === 'path' && /V.*h/.test(String(props.d)));
    const [, low = 0, high = 0] = /M[\d.]+ ([\d.]+)V([\d.]+)/.exec(String(whisker?.props.d)) ?? [];
    expect(Number(dot?.props.cy)).toBeLessThan(Number(low));
    expect(Number(dot?.props.cy)).toBeGreaterThan(Number(high));
  });

  it('gives the same numbers in a table, for today and the day', () => {
    expect(cellsOf(drawn)).toEqual(['day 100', '10', '10', 'day 103', '16', '7']);
  });

  it('has the day in its table although the curve has only weeks', () => {
    const weekly = [20, 13, 6].map((held, n) => ({ day: 100 + 7 * n, held }));
    const some = drawnBy(
      <CurvePlot
        curve={[]}
        decay={weekly}
        mark={{ day: 110, low: 1, high: 20 }}
        of={20}
        dayWords={words}
        label="said"
      />,
    );
    // Day 110 is three sevenths of the step from 13 down to 6.
    const cells = ['day 100', '20', 'day 107', '13', 'day 110', '10', 'day 114', '6'];
    expect(cellsOf(some)).toEqual(cells);
  });

  it('is nothing without days', () => {
    expect(drawnBy(<CurvePlot curve={[]} of={3} dayWords={words} label="none" />)).toEqual([]);
  });
});

describe('the load', () => {
  const bars = [8, 0, 4].map((answers, n) => ({ day: 100 + n, answers }));
  const drawn = drawnBy(
    <LoadPlot bars={bars} now={100} dayWords={words} label="said" summary="numbers" head="Day" />,
  );
  const rects = drawn.filter(({ tag }) => tag === 'rect').map(({ props }) => props);

  it('has a bar per day, as high as its answers, with today’s marked', () => {
    const [first, none, half] = rects.map(({ height }) => Number(height));
    expect(none).toBe(0);
    expect(half).toBeCloseTo(Number(first) / 2, 6);
    expect(rects.map((one) => one.class)).toEqual(['amount now', 'amount', 'amount']);
  });

  it('never divides by zero for days without answers', () => {
    const empty = drawnBy(
      <LoadPlot
        bars={[{ day: 100, answers: 0 }]}
        now={100}
        dayWords={words}
        label="none"
        summary="numbers"
        head="Day"
      />,
    );
    const numbers = empty.flatMap(({ props }) => Object.values(props)).map(String);
    expect(numbers.filter((value) => value.includes('NaN'))).toEqual([]);
  });
});

describe('the memories on the table', () => {
  const start = { rail: 'left', from: 'foot' } as const;
  const figure = (places: readonly { diamond: number; hold: number | null; aim: number }[]) =>
    drawnBy(
      <HoldFigure
        frame={{ table: TABLES['9ft'], mirror: MIRRORS[0] as Mirror }}
        label="said"
        start={start}
        aim={{ rail: 'foot', from: 'left' }}
        target={{ kind: 'pocket', pocket: 'right-side' }}
        places={places}
      />,
    );
  const holds = [0.97, 0.7, 0.2, null];
  const drawn = figure(holds.map((hold, n) => ({ diamond: 2 + n, hold, aim: 2 })));

  it('are rings: fuller for better known lines, and empty for lines never asked', () => {
    const discs = drawn
      .filter(({ props }) => props.class === 'disc')
      .map(({ props }) => Number(props.r));
    expect(drawn.filter(({ props }) => props.class === 'ring')).toHaveLength(4);
    expect(discs).toHaveLength(3);
    expect([...discs].sort((a, b) => b - a)).toEqual(discs);
  });

  it('have their percentages beside their starts', () => {
    const written = drawn.filter(({ props }) => props.class === 'hold-number');
    expect(written.map(({ text }) => text).sort()).toEqual(['20', '70', '97', '–']);
  });

  it('leave out the percentage of the better line where two have no room', () => {
    const near = figure([
      { diamond: 2, hold: 0.9, aim: 2 },
      { diamond: 2.1, hold: 0.6, aim: 2 },
    ]);
    const written = near.filter(({ props }) => props.class === 'hold-number');
    expect(written.map(({ text }) => text)).toEqual(['60']);
  });

  it('are never at 100', () => {
    expect([1, 0.999, 0.994, 0, null].map(holdPercent)).toEqual(['99', '99', '99', '0', '–']);
  });
});

function pathOf(drawn: readonly Drawn[], name: string): readonly number[] {
  const path = drawn.find(({ props }) => props.class === name);
  return points(String(path?.props.d));
}

function points(data: string): readonly number[] {
  return [...data.matchAll(/-?\d+(?:\.\d+)?/g)].map(([number]) => Number(number));
}

/** The rows of the table, in order. */
function cellsOf(drawn: readonly Drawn[]): readonly string[] {
  return drawn
    .filter(({ tag, props }) => tag === 'td' || (tag === 'th' && props.scope === 'row'))
    .map(({ text }) => text);
}
