import { describe, expect, it } from 'vitest';
import { settingOf } from '../../../src/charts/document/document.ts';
import {
  computeChart,
  HARBOUR_LANE,
  PATTERNS,
  parseChart,
  patternOf,
  toDecimal,
  toNumber,
} from '../../../src/charts/index.ts';
import {
  diamondOf,
  divisions,
  isLongRail,
  missAlong,
  playLine,
  SPEEDS,
  sightAt,
  targetLine,
  targetPoint,
} from '../../../src/table/index.ts';

const chart = computeChart(HARBOUR_LANE);

describe('patterns', () => {
  it('are at least the four of the first chart', () => {
    expect(PATTERNS.map((pattern) => pattern.id)).toEqual(
      expect.arrayContaining(['foot-to-side', 'foot-to-far-corner', 'cross-side', 'cross-corner']),
    );
  });

  it('count the first cushion from the corner nearest the start side', () => {
    // Adjacent rails: the shared corner; opposite rails: the same end (conventions in docs/numbers.md).
    for (const pattern of PATTERNS) {
      const opposite = isLongRail(pattern.aim.rail) === isLongRail(pattern.start.rail);
      const expected = opposite ? pattern.start.from : pattern.start.rail;
      expect(pattern.aim.from).toBe(expected);
      expect(pattern.aim.rail).toBe(pattern.cushions[0]);
    }
  });
});

describe('the demo chart', () => {
  it('has numbers on the rail for every line, and a reason for every gap', () => {
    expect(chart.lines.length).toBeGreaterThan(40);
    for (const line of chart.lines) {
      const most = divisions(patternOf(line.pattern).aim.rail);
      for (const speed of SPEEDS) {
        expect(line.numbers[speed].exact).toBeGreaterThanOrEqual(0);
        expect(line.numbers[speed].exact).toBeLessThanOrEqual(most);
      }
    }
    for (const gap of chart.gaps) expect(gap.why.length).toBeGreaterThan(5);
  });

  it('prints numbers that still send the ball near the pocket', () => {
    // Half a printed step of aim moves the arrival by about as much at most.
    for (const line of chart.lines) {
      const pattern = patternOf(line.pattern);
      const launch = { ...pattern.stroke, speed: chart.setting.condition.speeds.medium };
      const aim = toNumber(line.numbers.medium.printed);
      const flight = playLine(chart.setting, pattern, toNumber(line.start), aim, launch);
      if (!flight?.arrived) throw new Error(`${line.pattern} does not arrive`);
      expect(
        Math.abs(missAlong(targetLine(chart.setting.table, pattern.target), flight.end)),
      ).toBeLessThan(0.16);
    }
  });

  it('belongs to its last revision', () => {
    expect(settingOf(HARBOUR_LANE).condition).toEqual(HARBOUR_LANE.revisions.at(-1)?.condition);
  });
});

describe('speed windows', () => {
  // Common practice, no source: if the ball travels away from the count's origin, firm adds to the
  // number; if it comes back toward the origin, firm subtracts. For one cushion. If line and target
  // are almost level, the two speeds differ by less than a tenth.
  it('have the sign that players know', () => {
    const { table } = chart.setting;
    for (const line of chart.lines) {
      const pattern = patternOf(line.pattern);
      if (pattern.cushions.length > 1) continue;
      const { soft, firm } = line.numbers;
      const from = diamondOf(
        table,
        pattern.aim,
        sightAt(table, pattern.start, toNumber(line.start)),
      );
      const to = diamondOf(table, pattern.aim, targetPoint(table, pattern.target));
      const adds = Math.sign(to - from) * (firm.exact - soft.exact);
      expect(adds).toBeGreaterThan(Math.abs(to - from) < 1 ? -0.1 : 0);
    }
  });

  // Common practice, no source: soft to medium and medium to firm are each about 0.1–0.2 diamond.
  it('are about 0.1–0.2 diamond a step on average', () => {
    const steps = chart.lines.flatMap(({ numbers }) => [
      Math.abs(numbers.medium.exact - numbers.soft.exact),
      Math.abs(numbers.firm.exact - numbers.medium.exact),
    ]);
    const mean = steps.reduce((sum, step) => sum + step, 0) / steps.length;
    expect(mean).toBeGreaterThan(0.05);
    expect(mean).toBeLessThan(0.25);
  });
});

describe('"double the diamond"', () => {
  // Jewett: aiming N/2 from N across the width works fairly well at low speed.
  it('is close to the soft cross-corner numbers', () => {
    for (const line of chart.lines.filter((one) => one.pattern === 'cross-corner')) {
      const start = toNumber(line.start);
      if (start > 4) continue;
      expect(Math.abs(line.numbers.soft.exact - start / 2)).toBeLessThan(0.1);
    }
  });
});

const steep = { pattern: 'cross-side', start: toDecimal(6) };
const names = ['Opening night', 'League night', 'Final night'];

/** The demo chart with a change in its last revision. */
function withLast(change: object): unknown {
  const { revisions } = HARBOUR_LANE;
  return {
    ...HARBOUR_LANE,
    revisions: [...revisions.slice(0, -1), { ...revisions.at(-1), ...change }],
  };
}

describe('chart documents', () => {
  it('survive being written and read', () => {
    expect(parseChart(JSON.parse(JSON.stringify(HARBOUR_LANE)))).toEqual(HARBOUR_LANE);
  });

  it.each([
    ['nothing', null],
    ['another kind', { ...HARBOUR_LANE, kind: 'recipe' }],
    ['a future version', { ...HARBOUR_LANE, version: 3 }],
    ['an unknown table', { ...HARBOUR_LANE, table: '12ft' }],
    ['an unknown pattern', withLast({ patterns: ['over-the-top'] })],
    ['a pattern twice', withLast({ patterns: ['cross-side', 'cross-side'] })],
    ['revisions that do not rise', withLast({ number: 2 })],
    ['an unknown priority', withLast({ priorities: [{ ...steep, priority: 'never' }] })],
    [
      'two priorities of a pattern',
      withLast({
        priorities: [
          { ...steep, start: null, priority: 'first' },
          { ...steep, start: null, priority: 'last' },
        ],
      }),
    ],
    [
      'a priority beyond the rail',
      withLast({ priorities: [{ ...steep, start: 90_000, priority: 'last' }] }),
    ],
    ['an empty remark', withLast({ remarks: [{ ...steep, text: '' }] })],
    ['a remark beyond the rail', withLast({ remarks: [{ ...steep, start: 90_000, text: 'x' }] })],
    ['a fourth level', withLast({ levels: { names, lines: [{ ...steep, level: 3 }] } })],
    ['two levels with the same name', withLast({ levels: { names: ['a', 'b', 'a'], lines: [] } })],
    ['an invalid digest', { ...HARBOUR_LANE, earlier: ['none'] }],
    ['no revision', { ...HARBOUR_LANE, revisions: [] }],
    ['a step of zero', { ...HARBOUR_LANE, startStep: 0 }],
  ])('refuse %s', (_name, data) => {
    expect(parseChart(data)).toBeNull();
  });
});
