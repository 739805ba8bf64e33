/** Charts with measured lines, and numbers between lines and to other targets. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { BASES } from '../../../src/charts/document/document.ts';
import {
  type ChartDocument,
  computeChart,
  type Decimal,
  HARBOUR_LANE,
  isMeasured,
  kickTo,
  lastRevision,
  launchOf,
  type MeasuredLine,
  monotoneCubic,
  numberAt,
  numberTo,
  PATTERNS,
  parseChart,
  patternOf,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import {
  aimNamed,
  divisions,
  missAlong,
  NAMINGS,
  playLine,
  SPEEDS,
  targetLine,
} from '../../../src/table/index.ts';
import { MEASURED_BAR_TABLE, MEASURED_LINES, MEASURED_PATTERNS } from '../measured.ts';

const computed = computeChart(HARBOUR_LANE);
const bar = computeChart(MEASURED_BAR_TABLE);

const corrected: MeasuredLine = {
  pattern: 'cross-side',
  start: toDecimal(6),
  soft: toDecimal(4.93),
  medium: toDecimal(4.82),
  firm: toDecimal(4.7),
};

describe('a measured chart', () => {
  it('has the measured lines, each pattern by its starts, and nothing else', () => {
    expect(bar.gaps).toEqual([]);
    expect(bar.lines).toHaveLength(MEASURED_LINES.length);
    for (const line of bar.lines) {
      const row = MEASURED_LINES.find(
        ({ pattern, start }) => pattern === line.pattern && start === line.start,
      );
      expect(line.source).toBe('measured');
      for (const speed of SPEEDS) {
        expect(line.numbers[speed].exact).toBe(toNumber(row?.[speed] ?? toDecimal(-1)));
        expect(line.numbers[speed].printed).toBe(row?.[speed]);
      }
    }
    for (const id of MEASURED_PATTERNS) {
      const starts = bar.lines.filter(({ pattern }) => pattern === id).map(({ start }) => start);
      expect(starts.length).toBeGreaterThanOrEqual(4);
      expect(starts).toEqual([...starts].sort((a, b) => a - b));
    }
  });

  it('does not depend on the order of its measured lines', () => {
    const [first] = MEASURED_BAR_TABLE.revisions;
    const reversed = { ...first, measured: [...MEASURED_LINES].reverse() };
    expect(computeChart({ ...MEASURED_BAR_TABLE, revisions: [reversed] }).lines).toEqual(bar.lines);
  });

  it('rounds to its printed step', () => {
    const coarse = computeChart({ ...MEASURED_BAR_TABLE, printStep: toDecimal(0.5) });
    const line = coarse.lines.find(
      ({ pattern, start }) => pattern === 'cross-corner' && start === toDecimal(3),
    );
    // 1.4, 1.3 and 1.15 as measured.
    expect(SPEEDS.map((speed) => toNumber(line?.numbers[speed].printed ?? toDecimal(-1)))).toEqual([
      1.5, 1.5, 1,
    ]);
  });

  it('is measured in all its patterns and solves no line', () => {
    for (const id of MEASURED_PATTERNS) expect(isMeasured(bar, id)).toBe(true);
    expect(isMeasured(bar, 'three-cushion')).toBe(false);
    expect(numberAt(bar, 'three-cushion', toDecimal(5), 'medium')).toBeNull();
    const [first] = MEASURED_BAR_TABLE.revisions;
    const bare = { ...first, measured: [] };
    expect(computeChart({ ...MEASURED_BAR_TABLE, revisions: [bare] }).lines).toEqual([]);
  });

  it('names the same points in both namings', () => {
    const opposite = computeChart(MEASURED_BAR_TABLE, 'opposite');
    opposite.lines.forEach((line, n) => {
      const pattern = patternOf(line.pattern);
      const start = toNumber(line.start);
      for (const speed of SPEEDS) {
        const { exact } = line.numbers[speed];
        const through = aimNamed(bar.setting.table, pattern, start, exact, 'opposite');
        expect(through).toBeCloseTo(bar.lines[n]?.numbers[speed].exact ?? -1, 12);
      }
    });
  });
});

describe('a computed chart with a measured line', () => {
  const mixed = computeChart(withMeasured(HARBOUR_LANE, [corrected]));

  it('replaces the solved one, and no other line moves', () => {
    expect(mixed.lines).toHaveLength(computed.lines.length);
    mixed.lines.forEach((line, n) => {
      const at = line.pattern === corrected.pattern && line.start === corrected.start;
      if (!at) expect(line).toEqual(computed.lines[n]);
      else expect(line).toMatchObject({ source: 'measured', numbers: { medium: { exact: 4.82 } } });
    });
    expect(computed.lines.every(({ source }) => source === 'computed')).toBe(true);
    expect(isMeasured(mixed, 'cross-side')).toBe(true);
    expect(isMeasured(mixed, 'cross-corner')).toBe(false);
  });

  it('fills a gap, and a start between two steps', () => {
    const gap = computed.gaps[0];
    if (!gap) throw new Error('the demo chart has a gap');
    const numbers = { soft: toDecimal(1), medium: toDecimal(1.1), firm: toDecimal(1.2) };
    const filled = computeChart(
      withMeasured(HARBOUR_LANE, [
        { pattern: gap.pattern, start: gap.start, ...numbers },
        { pattern: 'cross-side', start: toDecimal(6.2), ...numbers },
      ]),
    );
    expect(filled.gaps).toHaveLength(computed.gaps.length - 1);
    expect(filled.lines).toHaveLength(computed.lines.length + 2);
    const starts = filled.lines
      .filter(({ pattern }) => pattern === 'cross-side')
      .map(({ start }) => toNumber(start));
    expect(starts).toEqual([5, 5.5, 6, 6.2, 6.5, 7, 7.5, 8]);
  });

  it('uses only its last revision, and only patterns that it teaches', () => {
    const [first, ...rest] = HARBOUR_LANE.revisions;
    const earlier = {
      ...HARBOUR_LANE,
      revisions: [{ ...first, measured: [corrected] }, ...rest],
    } as const;
    expect(computeChart(earlier).lines).toEqual(computed.lines);
    const last = { ...lastRevision(HARBOUR_LANE), patterns: ['cross-corner'] } as const;
    const without = { ...HARBOUR_LANE, revisions: [last] } as const;
    expect(computeChart(withMeasured(without, [corrected])).lines).toEqual(
      computeChart(without).lines,
    );
  });
});

describe('the number at any start', () => {
  const mixed = computeChart(withMeasured(HARBOUR_LANE, [corrected]));

  it('is the line’s own if there is one, in either naming', () => {
    for (const naming of NAMINGS) {
      const chart = computeChart(withMeasured(HARBOUR_LANE, [corrected]), naming);
      for (const { pattern, start, numbers } of chart.lines) {
        for (const speed of SPEEDS) {
          expect(numberAt(chart, pattern, start, speed)).toBe(numbers[speed].exact);
        }
      }
    }
  });

  it('is solved between computed lines, and sends the ball to its target', () => {
    for (const naming of NAMINGS) {
      const chart = computeChart(HARBOUR_LANE, naming);
      for (const pattern of PATTERNS) {
        const start = toDecimal((pattern.starts[0] + pattern.starts[1]) / 2 + 0.1);
        for (const speed of SPEEDS) {
          const number = numberAt(chart, pattern.id, start, speed);
          if (number === null) continue;
          expect(missBy(chart, pattern.id, start, number, speed)).toBeLessThan(1e-6);
        }
      }
    }
  });

  it('is the monotone cubic through the lines if one is measured', () => {
    for (const speed of SPEEDS) {
      const lines = mixed.lines.filter(({ pattern }) => pattern === 'cross-side');
      const curve = monotoneCubic(
        lines.map(({ start, numbers }) => ({ x: toNumber(start), y: numbers[speed].exact })),
      );
      for (const start of [5.1, 5.75, 6.3, 7.9]) {
        expect(numberAt(mixed, 'cross-side', toDecimal(start), speed)).toBe(curve(start));
      }
    }
    expect(numberAt(mixed, 'cross-corner', toDecimal(2.2), 'soft')).toBe(
      numberAt(computed, 'cross-corner', toDecimal(2.2), 'soft'),
    );
  });

  it('is between the numbers of the neighboring lines, as the curve is monotone', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 10_000, max: 60_000 }),
        fc.constantFrom(...SPEEDS),
        (at, speed) => {
          const lines = bar.lines.filter(({ pattern }) => pattern === 'cross-corner');
          const next = Math.max(
            1,
            lines.findIndex(({ start }) => at <= start),
          );
          const number = numberAt(bar, 'cross-corner', at as Decimal, speed) ?? Number.NaN;
          expect(number).toBeGreaterThanOrEqual(lines[next - 1]?.numbers[speed].exact ?? 9);
          expect(number).toBeLessThanOrEqual(lines[next]?.numbers[speed].exact ?? -9);
        },
      ),
    );
  });

  it('does not exist beyond the pattern or beyond the measured lines', () => {
    expect(numberAt(computed, 'cross-side', toDecimal(4.9), 'medium')).toBeNull();
    expect(numberAt(bar, 'foot-to-far-corner', toDecimal(1.9), 'medium')).toBeNull();
    expect(numberAt(bar, 'foot-to-far-corner', toDecimal(2), 'medium')).toBe(0.8);
    const [gap] = computed.gaps;
    if (!gap) throw new Error('the demo chart has a gap');
    expect(numberAt(computed, gap.pattern, gap.start, gap.speed)).toBeNull();
  });
});

describe('the number to any target', () => {
  it('is solved, struck as the pattern is, and sends the ball to the target ball', () => {
    for (const naming of NAMINGS) {
      const chart = computeChart(MEASURED_BAR_TABLE, naming);
      let reached = 0;
      for (const pattern of PATTERNS) {
        const start = toDecimal((pattern.starts[0] + pattern.starts[1]) / 2);
        const kick = kickTo(pattern, 2.3, 0.1);
        const number = numberTo(chart, kick, start, 'medium');
        if (number === null) continue;
        reached++;
        const { table } = chart.setting;
        const aim = aimNamed(table, pattern, toNumber(start), number, naming);
        const launch = launchOf(chart, pattern, 'medium');
        const flight = playLine(chart.setting, kick, toNumber(start), aim, launch);
        if (!flight) throw new Error(`${pattern.id} has no line`);
        expect(Math.abs(missAlong(targetLine(table, kick.target), flight.end))).toBeLessThan(1e-6);
      }
      expect(reached).toBeGreaterThan(4);
    }
  });

  it('does not exist if the ball cannot get there: near the end of the foot rail', () => {
    const kick = kickTo(patternOf('foot-to-side'), 0.3);
    expect(numberTo(computed, kick, toDecimal(4), 'medium')).toBeNull();
  });

  it('strikes three cushions with running side, at the chart’s speed', () => {
    expect(launchOf(bar, patternOf('three-cushion'), 'firm')).toEqual({
      running: patternOf('three-cushion').stroke?.running,
      speed: bar.setting.condition.speeds.firm,
    });
    expect(launchOf(bar, patternOf('cross-side'), 'soft')).toEqual({
      speed: bar.setting.condition.speeds.soft,
    });
  });
});

describe('documents with measured lines', () => {
  it('survive JSON', () => {
    expect(parseChart(JSON.parse(JSON.stringify(MEASURED_BAR_TABLE)))).toEqual(MEASURED_BAR_TABLE);
    fc.assert(
      fc.property(anyMeasured, fc.constantFrom(...BASES), (measured, basis) => {
        const document = withMeasured(HARBOUR_LANE, measured);
        const whole = { ...document, basis };
        expect(parseChart(JSON.parse(JSON.stringify(whole)))).toEqual(whole);
      }),
    );
  });

  it.each([
    ['an unknown pattern', { pattern: 'over-the-top' }],
    ['a start beyond the rail', { start: 80_001 }],
    ['a start before the rail', { start: -1 }],
    ['a number beyond the rail', { firm: 80_001 }],
    ['a number before the rail', { soft: -5_000 }],
    ['a number between two decimals', { medium: 48_200.5 }],
    ['not a number', { medium: Number.NaN }],
    ['no number at all', { soft: undefined, medium: undefined, firm: undefined }],
    ['text', { soft: '4.9' }],
  ])('are refused for %s', (_name, change) => {
    expect(
      parseChart(withMeasured(HARBOUR_LANE, [{ ...corrected, ...change } as MeasuredLine])),
    ).toBeNull();
  });

  // The foot rail has four diamonds, the long rail eight (WPA Rules 8.1).
  it('limit a number to its rail', () => {
    const foot = { ...corrected, pattern: 'foot-to-side' } as const;
    expect(parseChart(withMeasured(HARBOUR_LANE, [foot]))).toBeNull();
    const four = toDecimal(4);
    const most = { ...foot, start: toDecimal(8), soft: four, medium: four, firm: four };
    expect(parseChart(withMeasured(HARBOUR_LANE, [most]))).not.toBeNull();
  });

  it('are refused for a start twice, an unknown basis, or too many lines', () => {
    expect(parseChart(withMeasured(HARBOUR_LANE, [corrected, corrected]))).toBeNull();
    expect(parseChart({ ...HARBOUR_LANE, basis: 'guessed' })).toBeNull();
    const lines = (count: number) =>
      Array.from({ length: count }, (_, n) => ({ ...corrected, start: n as Decimal }));
    expect(parseChart(withMeasured(HARBOUR_LANE, lines(2000)))).not.toBeNull();
    expect(parseChart(withMeasured(HARBOUR_LANE, lines(2001)))).toBeNull();
  });
});

function withMeasured(document: ChartDocument, measured: readonly MeasuredLine[]): ChartDocument {
  const [first, ...rest] = document.revisions;
  const last = { ...(rest.at(-1) ?? first), measured };
  return { ...document, revisions: rest.length > 0 ? [first, ...rest.slice(0, -1), last] : [last] };
}

/** How far beside its target a number of the chart sends the ball, meters. */
function missBy(
  chart: typeof computed,
  id: MeasuredLine['pattern'],
  start: Decimal,
  number: number,
  speed: (typeof SPEEDS)[number],
): number {
  const { setting, naming } = chart;
  const pattern = patternOf(id);
  const aim = aimNamed(setting.table, pattern, toNumber(start), number, naming);
  const launch = launchOf(chart, pattern, speed);
  const flight = playLine(setting, pattern, toNumber(start), aim, launch);
  if (!flight?.arrived) throw new Error(`${id} from ${toNumber(start)} does not arrive`);
  return Math.abs(missAlong(targetLine(setting.table, pattern.target), flight.end));
}

const anyLine: fc.Arbitrary<MeasuredLine> = fc.constantFrom(...PATTERNS).chain((pattern) => {
  const on = (rail: 4 | 8) =>
    fc.integer({ min: 0, max: rail * 10_000 }).map((units) => units as Decimal);
  const number = on(divisions(pattern.aim.rail));
  return fc.record({
    pattern: fc.constant(pattern.id),
    start: on(divisions(pattern.start.rail)),
    soft: number,
    medium: number,
    firm: number,
  });
});

const anyMeasured = fc.uniqueArray(anyLine, {
  maxLength: 60,
  selector: ({ pattern, start }) => `${pattern} ${start}`,
});
