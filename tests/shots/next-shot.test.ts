import { describe, expect, it } from 'vitest';
import { computeChart, HARBOUR_LANE, patternOf, toNumber } from '../../src/charts/index.ts';
import { missOf } from '../../src/shots/arrival.ts';
import { KNOWN, type TableShot } from '../../src/shots/index.ts';
import { lineSlopes, numberError } from '../../src/shots/line-slopes.ts';
import { nextShot, shotsToGo } from '../../src/shots/next-shot.ts';
import { identity, inverse, plusSquare } from '../../src/shots/small-matrix.ts';
import { dice } from '../oracle/dice.ts';
import { CLUB_PLAYER, readAt } from './table-shots.ts';

const chart = computeChart(HARBOUR_LANE);
const slopes = lineSlopes(chart);

function shotAt(next: ReturnType<typeof nextShot>, roll = dice(1)): TableShot {
  if (!next) throw new Error('no next shot');
  const { line, speed } = next;
  const { pattern } = line;
  const aim = toNumber(line.numbers[speed].printed);
  const route = patternOf(pattern);
  const called = { pattern, route, start: toNumber(line.start), speed, aim };
  const shot = readAt(chart.setting, called, CLUB_PLAYER, roll);
  if (!shot) throw new Error('it does not arrive');
  return shot;
}

describe('the slopes of the lines', () => {
  // Compared with numbers solved again with another restitution (a spread is 0.06).
  it('are how the solved numbers move', () => {
    const [first] = HARBOUR_LANE.revisions;
    const beside = (by: number) => {
      const condition = {
        ...chart.setting.condition,
        restitution: chart.setting.condition.restitution + by,
      };
      return computeChart({
        ...HARBOUR_LANE,
        revisions: [{ ...first, patterns: chart.patterns, condition }],
      }).lines;
    };
    const [low, high] = [beside(-0.006), beside(0.006)];
    let compared = 0;
    for (const {
      line,
      speed,
      slopes: [restitution = 9],
    } of slopes) {
      const same = (lines: typeof low) =>
        lines.find(({ pattern, start }) => pattern === line.pattern && start === line.start);
      const [a, b] = [same(low), same(high)];
      if (!a || !b) continue;
      compared++;
      const moved = (b.numbers[speed].exact - a.numbers[speed].exact) / 0.2;
      expect(Math.abs(restitution - moved)).toBeLessThan(0.02 + 0.05 * Math.abs(moved));
    }
    expect(compared).toBeGreaterThan(250);
  });
});

describe('the next shot', () => {
  // det(M + ggᵀ/σ²) = det M · (1 + gᵀM⁻¹g/σ²), the matrix determinant lemma; computed in full.
  it('is the one that shrinks the covariance most', () => {
    const det = ([
      [a = 0, b = 0, c = 0] = [],
      [d = 0, e = 0, f = 0] = [],
      [g = 0, h = 0, i = 0] = [],
    ]: ReturnType<typeof identity>) =>
      a * (e * i - f * h) - b * (d * i - f * g) + c * (d * h - e * g);
    // Errors are proportional to the number of cushions (common practice).
    const gains = slopes.map(
      ({ line, slopes: one, noise }) =>
        det(
          plusSquare(identity(3), one, 1 / (noise * patternOf(line.pattern).cushions.length) ** 2),
        ) - 1,
    );
    const next = nextShot(chart, []);
    expect(next?.gain).toBeCloseTo(Math.max(...gains), 6);
    const covariance = inverse(identity(3)) ?? [];
    expect(next?.standardError).toBeCloseTo(
      Math.max(
        ...slopes
          .filter((s) => s.line === next?.line && s.speed === next?.speed)
          .map((s) => numberError(s, covariance)),
      ),
      9,
    );
  });

  it('always arrives, gains less and less, and is not always the same line', () => {
    const shots: TableShot[] = [];
    const gains: number[] = [];
    const lines = new Set<string>();
    const roll = dice(2);
    for (let n = 0; n < 8; n++) {
      const next = nextShot(chart, shots);
      gains.push(next?.gain ?? -1);
      lines.add(`${next?.line.pattern} ${next?.line.start}`);
      shots.push(shotAt(next, roll));
    }
    expect(lines.size).toBeGreaterThan(2);
    expect(gains.at(-1)).toBeLessThan((gains[0] ?? 0) / 4);
    const gaps = new Set(chart.gaps.map(({ pattern, start }) => `${pattern} ${start}`));
    for (const line of lines) expect(gaps.has(line)).toBe(false);
  });

  // Players mostly want corrections for one cushion (common practice, no source).
  it('starts with one cushion, and asks no pattern four times while another has no shot', () => {
    const shots: TableShot[] = [];
    const roll = dice(3);
    for (let n = 0; n < 12; n++) {
      const next = nextShot(chart, shots);
      if (n < 5) expect(patternOf(next?.line.pattern ?? 'three-cushion').cushions).toHaveLength(1);
      shots.push(shotAt(next, roll));
    }
    const counts = new Map<string, number>();
    for (const { pattern } of shots) counts.set(pattern, (counts.get(pattern) ?? 0) + 1);
    expect(Math.max(...counts.values())).toBeLessThanOrEqual(3);
    expect(counts.size).toBeGreaterThanOrEqual(4);
  });

  it('leaves out lines that did not arrive, or would not on the table as known so far', () => {
    const first = nextShot(chart, []);
    if (!first) throw new Error('no next shot');
    const { pattern } = first.line;
    const without = [{ pattern, start: toNumber(first.line.start), speed: first.speed }];
    const second = nextShot(chart, [], { without });
    expect([second?.line, second?.speed]).not.toEqual([first.line, first.speed]);
    // So dead that many balls do not arrive; the next shot still does.
    const on = {
      ...chart.setting,
      condition: { ...chart.setting.condition, restitution: 0.5, rollFriction: 0.05 },
    };
    const arrives = (next: ReturnType<typeof nextShot>) =>
      next !== null &&
      missOf(on, {
        route: patternOf(next.line.pattern),
        start: toNumber(next.line.start),
        speed: next.speed,
        aim: toNumber(next.line.numbers[next.speed].printed),
      }) !== null;
    let lost = 0;
    for (const { line, speed } of slopes) {
      if (!arrives({ line, speed, standardError: 0, gain: 0 })) lost++;
    }
    expect(lost).toBeGreaterThan(20);
    expect(lost).toBeLessThan(slopes.length);
    const shots: TableShot[] = [];
    for (let n = 0; n < 6; n++) {
      const next = nextShot(chart, shots, { on });
      expect(arrives(next)).toBe(true);
      shots.push(shotAt(next));
    }
  });

  it('does not exist without lines', () => {
    expect(nextShot({ ...chart, lines: [] }, [])).toBe(null);
  });
});

describe('the shots to go', () => {
  const amount = (standardError: number) =>
    ({ of: 'all', value: 0.1, standardError, interval: [0, 1] }) as const;
  const shots = (count: number) =>
    Array.from({ length: count }, () => ({
      shot: shotAt(nextShot(chart, [])),
      residual: 0,
      weight: 1,
    }));

  // n · (se/0.05)²: halving the error takes four times as many shots in all.
  it('are proportional to the square of the error', () => {
    const four = shots(4);
    expect(shotsToGo({ amounts: [amount(2 * KNOWN)], shots: four })).toBe(12);
    expect(shotsToGo({ amounts: [amount(KNOWN)], shots: four })).toBe(0);
    expect(shotsToGo({ amounts: [amount(KNOWN / 2)], shots: four })).toBe(0);
    expect(shotsToGo({ amounts: [], shots: [] })).toBe(null);
    expect(shotsToGo({ amounts: [amount(1)], shots: four.slice(0, 1) })).toBe(null);
  });
});
