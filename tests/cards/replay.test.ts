import { describe, expect, it } from 'vitest';
import { inDiamonds, replay } from '../../src/cards/index.ts';
import {
  computeChart,
  HARBOUR_LANE,
  type PatternId,
  patternOf,
  toNumber,
} from '../../src/charts/index.ts';
import { pocketTips } from '../../src/table/index.ts';

const chart = computeChart(HARBOUR_LANE);
const { setting } = chart;
const speed = setting.condition.speeds.medium;

function medium(id: PatternId, start: number, aim: number) {
  return replay(setting, patternOf(id), start, aim, speed);
}

describe('a replay', () => {
  it('of the solved number meets the middle of the pocket, at every line', () => {
    for (const line of chart.lines) {
      const played = medium(line.pattern, toNumber(line.start), line.numbers.medium.exact);
      if (played.tooFlat) expect(['tip', 'wide']).toContain(played.fate);
      else expect(played).toMatchObject({ fate: 'clean', miss: expect.closeTo(0, 6) });
    }
  });

  // A ball of diameter 2.25 in fits a mouth m when m · sin(entry angle from the mouth) ≥ 2.25 in
  // (geometry); into a 5 1/16 in side pocket that is 26.4° from the rail.
  it('says when the pocket is too flat to take the ball', () => {
    const steep = chart.lines.find((line) => line.pattern === 'cross-side');
    const flat = chart.lines.filter((line) => line.pattern === 'foot-to-side').at(-1);
    if (!steep || !flat) throw new Error('both lines should be there');
    const entry = (line: typeof flat) => {
      const played = medium(line.pattern, toNumber(line.start), line.numbers.medium.exact);
      const last = played.stretches.at(-1);
      if (!last) throw new Error('a path should be there');
      const { vx, vy } = last.ball;
      const t = last.duration;
      const degrees =
        Math.atan2(Math.abs(vy + last.ay * t), Math.abs(vx + last.ax * t)) * (180 / Math.PI);
      return { degrees, tooFlat: played.tooFlat };
    };
    expect(entry(steep).degrees).toBeGreaterThan(26.4);
    expect(entry(steep).tooFlat).toBe(false);
    expect(entry(flat).degrees).toBeLessThan(26.4);
    expect(entry(flat).tooFlat).toBe(true);
  });

  it('leaves the stretches joined end to end', () => {
    const played = replay(setting, patternOf('foot-to-side'), 3, 1.8, speed);
    played.stretches.forEach((stretch, n) => {
      const next = played.stretches[n + 1];
      if (!next) return;
      const t = stretch.duration;
      const x = stretch.ball.x + (stretch.ball.vx + (stretch.ax * t) / 2) * t;
      expect(x).toBeCloseTo(next.ball.x, 9);
    });
  });

  // Off the foot rail a smaller number is a wider angle, and wide is long; across the table a
  // smaller number (nearer the target's end) sends the ball further on, which is long too.
  it.each([
    ['foot-to-side', 3, -0.3],
    ['foot-to-far-corner', 4, 0.3],
    ['cross-side', 6, -0.3],
    ['cross-corner', 3, -0.3],
  ] as const)('%s from %d: more angle off the cushion is long', (id, start, change) => {
    const line = chart.lines.find((one) => one.pattern === id && toNumber(one.start) === start);
    if (!line) throw new Error('no such line');
    const exact = line.numbers.medium.exact;
    const wider = replay(setting, patternOf(id), start, exact + change, speed);
    const steeper = replay(setting, patternOf(id), start, exact - change, speed);
    const angle = (played: typeof wider) => {
      const last = played.stretches[played.stretches.length - 1];
      const { vx, vy } = last?.ball ?? { vx: 0, vy: 1 };
      return id.startsWith('foot') ? Math.abs(vy / vx) : Math.abs(vx / vy);
    };
    const [long, short] = angle(wider) > angle(steeper) ? [wider, steeper] : [steeper, wider];
    expect(long.miss).toBeGreaterThan(0);
    expect(short.miss).toBeLessThan(0);
  });

  it('tells where a ball that goes wide arrives', () => {
    const played = replay(setting, patternOf('cross-side'), 6, 5.4, speed);
    expect(played.fate).toBe('wide');
    expect(played.arrival?.rail).toBe('left');
    expect(played.arrival?.diamond).toBeGreaterThan(4.5);
    expect(inDiamonds(setting, setting.table.length)).toBeCloseTo(8, 12);
  });

  // Both rows were wrong once: the mouth's line was taken as endless.
  it('measures a wide ball along the rail it arrives at, not along the mouth', () => {
    const played = medium('foot-to-far-corner', 3, 2);
    expect(played.fate).toBe('wide');
    expect(played.arrival?.rail).toBe('right');
    const short = 8 - (played.arrival?.diamond ?? 0);
    expect(inDiamonds(setting, Math.abs(played.miss ?? 0))).toBeCloseTo(short, 9);
  });

  it('lets the flat cushion before a pocket stop the ball', () => {
    for (const [start, aim] of [
      [3, 1.9],
      [8, 2.74],
    ] as const) {
      const played = medium('foot-to-side', start, aim);
      expect(played.fate).toBe('wide');
      expect(played.tooFlat).toBe(false);
    }
  });

  it('catches a tip only when it passes within a ball’s radius of one', () => {
    const [near, far] = pocketTips(setting.table, 'right-side');
    for (let aim = 1.6; aim < 2.1; aim += 0.005) {
      const played = medium('foot-to-side', 3, aim);
      const last = played.stretches.at(-1);
      if (!last || (played.fate !== 'tip' && played.fate !== 'clean')) continue;
      const vx = last.ball.vx + last.ax * last.duration;
      const vy = last.ball.vy + last.ay * last.duration;
      const gap = (tip: { x: number; y: number }) =>
        Math.abs(vx * (tip.y - played.end.y) - vy * (tip.x - played.end.x)) / Math.hypot(vx, vy);
      expect(Math.min(gap(near), gap(far)) < setting.table.ballRadius).toBe(played.fate === 'tip');
    }
  });

  it('tells when the ball drops on the way, or never gets there', () => {
    const early = replay(setting, patternOf('foot-to-side'), 2, 0, speed);
    expect(early).toMatchObject({ fate: 'early', pocket: 'foot-left' });
    const slow = replay(setting, patternOf('foot-to-far-corner'), 6, 1.5, 0.3);
    expect(slow.fate).toBe('short of it');
  });
});
