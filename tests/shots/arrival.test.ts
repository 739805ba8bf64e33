import { describe, expect, it } from 'vitest';
import { isMade, replay } from '../../src/cards/index.ts';
import { PATTERNS, type Pattern } from '../../src/charts/index.ts';
import { arrivalOf, missOf } from '../../src/shots/arrival.ts';
import {
  CLUB_CLOTH,
  diamondLength,
  MIRRORS,
  mirrorRoute,
  type Setting,
  SPEEDS,
  solveLine,
  TABLES,
} from '../../src/table/index.ts';
import type { Accuracy } from '../oracle/impact.ts';
import { endByOde } from '../oracle/shot.ts';

const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };

/** Every pattern at its whole starts and three speeds, at numbers on both sides of its own. */
const shots = PATTERNS.flatMap((route: Pattern) => {
  const [first, last] = route.starts;
  return [first, Math.floor((first + last) / 2), last].flatMap((start) =>
    SPEEDS.flatMap((speed) => {
      const launch = { ...route.stroke, speed: CLUB_CLOTH.speeds[speed] };
      const { aim } = solveLine(club, route, start, launch);
      return aim === null
        ? []
        : [-0.4, -0.15, 0, 0.15, 0.4].map((by) => ({ route, start, speed, aim: aim + by, launch }));
    }),
  );
});

describe('where a test shot arrives', () => {
  // The answer screen plays the ball into pockets and rails as they are (cards/replay.ts).
  it('agrees with the answer screen for every ball that goes wide', () => {
    let wide = 0;
    for (const shot of shots) {
      const played = replay(club, shot.route, shot.start, shot.aim, shot.launch);
      if (played.fate !== 'wide' || played.miss === null) continue;
      wide++;
      const expected = played.miss / diamondLength(club.table, 'left');
      const ours = missOf(club, shot) ?? 9;
      expect(Math.abs(ours)).toBeCloseTo(Math.abs(expected), 9);
      // The answer screen finds the side at the mouth's line, behind the rail: a ball that grazes the
      // pocket may pass its middle in between.
      if (Math.abs(expected) > 0.3) expect(Math.sign(ours)).toBe(Math.sign(expected));
    }
    expect(wide).toBeGreaterThan(shots.length / 4);
  });

  it('is within the opening for every ball that is made', () => {
    let made = 0;
    for (const shot of shots) {
      const played = replay(club, shot.route, shot.start, shot.aim, shot.launch);
      if (!isMade(played)) continue;
      made++;
      // From the corner to a tip along the rail: 4.5625 in / √2 of 12.5 in (WPA), 0.258 diamond. A ball
      // off the rail beside the pocket also drops, so one radius more, 0.09.
      expect(Math.abs(missOf(club, shot) ?? 9)).toBeLessThan(0.258 + 0.09);
    }
    expect(made).toBeGreaterThan(shots.length / 8);
  });

  it('is continuous through the pocket, and its slope fits its values', () => {
    for (const { route, start, speed, aim } of shots.filter((_, n) => n % 5 === 2)) {
      const at = (number: number) => missOf(club, { route, start, speed, aim: number });
      expect(largestJump(at, aim - 0.2, aim + 0.2), `${route.id} ${start}`).toBeLessThan(0.02);
      const here = arrivalOf(club, { route, start, speed, aim: aim + 0.4 });
      const near = [0.3, 0.5].map((by) => missOf(club, { route, start, speed, aim: aim + by }));
      const [low, high] = near;
      if (!here || low == null || high == null) continue;
      expect(here.slope).toBeCloseTo((high - low) / 0.2, 6);
    }
  });

  it('is the same in all four pictures', () => {
    for (const { route, start, speed, aim } of shots.filter((_, n) => n % 7 === 0)) {
      const [own, ...others] = MIRRORS.map((mirror) => {
        const mirrored = { ...mirrorRoute(route, mirror), ...strokeOf(route) };
        return missOf(club, { route: mirrored, start, speed, aim });
      });
      for (const other of others) {
        if (own == null) expect(other).toBe(null);
        else expect(other).toBeCloseTo(own, 6);
      }
    }
  });

  // A shot with a rail as its target, played by odex on an independent version of the model, stops at
  // the rail. The count from the pocket is then computed by hand for two simple cases.
  it('is where the general solver’s ball reaches the rail', () => {
    const accuracy: Accuracy = { tolerance: 1e-9, creep: 1e-6 };
    const { length, width, ballRadius } = club.table;
    const diamond = 0.3175; // 12.5 in, 9 ft: 100 in / 8 (WPA)
    const side = PATTERNS[0];
    const launch = { speed: CLUB_CLOTH.speeds.medium };
    const toRail = (rail: 'right' | 'head') => ({
      kind: 'rail' as const,
      count: { rail, from: rail === 'right' ? ('foot' as const) : ('left' as const) },
      diamond: 4,
    });
    for (const aim of [1.2, 1.9, 2.6]) {
      const route = { ...side, target: toRail('right') };
      const { ball } = endByOde({ setting: club, route, start: 3, aim, launch }, accuracy);
      // Off the foot rail, long is nearer to it: fewer diamonds from the foot than the side pocket.
      const expected = (length / 2 - ball.x) / diamond;
      const ours = missOf(club, { route: side, start: 3, speed: 'medium', aim });
      expect(Math.abs((ours ?? 9) - expected)).toBeLessThan(0.001);
    }
    const corner = PATTERNS[1];
    const { aim: own } = solveLine(club, corner, 4, launch);
    for (const by of [0.3, 0.5]) {
      const aim = (own ?? 9) - by;
      const route = { ...corner, target: toRail('head') };
      const { ball } = endByOde({ setting: club, route, start: 4, aim, launch }, accuracy);
      expect(ball.x).toBeCloseTo(length - ballRadius, 9);
      // A smaller number is a narrower angle: short, on the head rail before its corner.
      const expected = -(width - ball.y) / diamond;
      const ours = missOf(club, { route: corner, start: 4, speed: 'medium', aim });
      expect(Math.abs((ours ?? 9) - expected)).toBeLessThan(0.001);
    }
  });

  it('is null if the ball does not get there', () => {
    const slow = { ...CLUB_CLOTH, rollFriction: 0.05 };
    const corner = PATTERNS[1];
    const soft = { route: corner, start: 4, speed: 'soft' as const, aim: 1 };
    expect(missOf({ ...club, condition: slow }, soft)).toBe(null);
    expect(arrivalOf({ ...club, condition: slow }, soft)).toBe(null);
  });
});

function strokeOf({ stroke }: Pattern) {
  return stroke ? { stroke } : {};
}

/** Halves the steepest of forty steps twelve times, keeping the steeper half: a jump would remain. */
function largestJump(miss: (at: number) => number | null, from: number, to: number): number {
  const change = (a: number, b: number) => Math.abs((miss(b) ?? 0) - (miss(a) ?? 0));
  let width = (to - from) / 40;
  const steps = Array.from({ length: 40 }, (_, n) => from + n * width).filter(
    (at) => miss(at) !== null && miss(at + width) !== null,
  );
  let [low = from] = steps.sort((a, b) => change(b, b + width) - change(a, a + width));
  for (let round = 0; round < 12; round++) {
    width /= 2;
    if (change(low + width, low + 2 * width) > change(low, low + width)) low += width;
  }
  return change(low, low + width);
}
