import { describe, expect, it } from 'vitest';
import { patternOf } from '../../src/charts/index.ts';
import type { Frame } from '../../src/figure/frame.ts';
import { lengthsBehind, pace, pathPoints, timeOf } from '../../src/figure/path-points.ts';
import {
  CLUB_CLOTH,
  MIRRORS,
  playLine,
  pointAlong,
  type Stretch,
  TABLES,
} from '../../src/table/index.ts';

const table = TABLES['9ft'];
const frames = MIRRORS.map((mirror): Frame => ({ table, mirror }));
const [plain] = frames as [Frame];

describe('the spots of a ball’s path', () => {
  it('begin and end exactly where the ball does, in all four pictures', () => {
    const stretches = played();
    const last = stretches.at(-1) as Stretch;
    const end = pointAlong(last, last.duration);
    for (const frame of frames) {
      const points = pathPoints(frame, stretches, 40);
      const { leftRight, footHead } = frame.mirror;
      const x = (leftRight ? table.width - end.y : end.y) * 1000;
      const y = (footHead ? table.length - end.x : end.x) * 1000;
      expect(points.at(-1)?.x).toBeCloseTo(x, 6);
      expect(points.at(-1)?.y).toBeCloseTo(y, 6);
      expect([points[0]?.offset, points.at(-1)?.offset]).toEqual([0, 1]);
    }
  });

  it('are at least as many as asked for, at rising times', () => {
    const points = pathPoints(plain, played(), 40);
    expect(points.length).toBeGreaterThanOrEqual(40);
    points.slice(1).forEach((point, n) => {
      expect(point.offset).toBeGreaterThan(points[n]?.offset ?? 1);
    });
  });

  it('are equally far apart at constant speed', () => {
    const points = pathPoints(plain, [steady(0, 2, 1.5)], 50);
    expect(points).toHaveLength(51);
    points.forEach((point, n) => {
      expect(point.offset).toBeCloseTo(n / 50, 12);
      // 1.5 s at 2 m/s down the picture: 3000 mm.
      expect(point.y).toBeCloseTo((3000 * n) / 50, 6);
    });
  });

  it('carry the part of the time that has passed, across stretches of different speed', () => {
    // 1 m at 1 m/s, then 1 m at 4 m/s: four fifths of the time for the first half of the path.
    const stretches = [steady(0, 1, 1), steady(1, 4, 0.25)];
    const points = pathPoints(plain, stretches, 40);
    const corner = points.find((point) => Math.abs(point.y - 1000) < 1e-6);
    expect(corner?.offset).toBeCloseTo(0.8, 12);
    const half = lengthsBehind(points)[points.indexOf(corner as (typeof points)[number])];
    expect(half).toBeCloseTo(0.5, 9);
  });

  it('follow the parabola of a slowing ball', () => {
    // Galilei's law from rest, backwards: stopping from 2 m/s at 1 m/s² takes 2 s and 2 m, and in
    // half of the time the ball covers three quarters of the path.
    const slowing = { ...steady(0, 2, 2), ax: -1 };
    const points = pathPoints(plain, [slowing], 40);
    expect(points.at(-1)?.y).toBeCloseTo(2000, 6);
    expect(points.find((point) => point.offset === 0.5)?.y).toBeCloseTo(1500, 6);
  });

  it('are none for a path that takes no time or has no end', () => {
    expect(pathPoints(plain, [], 40)).toEqual([]);
    expect(pathPoints(plain, [steady(0, 0, 0)], 40)).toEqual([]);
    expect(pathPoints(plain, [steady(0, 1, Number.POSITIVE_INFINITY)], 40)).toEqual([]);
  });
});

describe('the time of the animation', () => {
  it('is the true time up to 3.5 s; longer plays are sped up, all balls alike', () => {
    expect(pace([[steady(0, 1, 3)], [steady(0, 1, 2)]])).toBe(1);
    expect(pace([[steady(0, 1, 7)], [steady(0, 1, 2)]])).toBeCloseTo(0.5, 12);
    expect(pace([])).toBe(1);
    expect(timeOf([steady(0, 1, 3), steady(0, 1, 2)])).toBe(5);
  });
});

function steady(x: number, vx: number, duration: number): Stretch {
  const ball = { x, y: 0.5, vx, vy: 0, wx: 0, wy: vx, wz: 0 };
  return { ball, ax: 0, ay: 0, duration, rolling: true };
}

function played(): readonly Stretch[] {
  const flight = playLine({ table, condition: CLUB_CLOTH }, patternOf('foot-to-side'), 3, 1.8, {
    speed: 3,
  });
  if (!flight) throw new Error('no flight');
  return flight.stretches;
}
