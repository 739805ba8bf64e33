/** How full a kick hits its ball, against ball-fraction geometry derived here. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kickTo, PATTERNS } from '../../src/charts/index.ts';
import {
  ballOnLine,
  CLUB_CLOTH,
  diamondLength,
  diamondOf,
  fullnessAt,
  type Hit,
  hitHalfWidth,
  hitOnPath,
  type Launch,
  passCushions,
  playLine,
  pointAlong,
  type Route,
  type Setting,
  type Stretch,
  solveLine,
  strikesFirst,
  TABLES,
} from '../../src/table/index.ts';
import { TOLERANCE } from './tolerances.ts';

const table = TABLES['9ft'];
const R = table.ballRadius;
const club: Setting = { table, condition: CLUB_CLOTH };
const medium: Launch = { speed: CLUB_CLOTH.speeds.medium };

describe('fullness', () => {
  // Derived: the cut angle φ (between the path and the line of centers) has sin φ = 1 − fullness. Half
  // ball is the cut of 30° that every player knows (common practice, no source).
  it.each([
    [0, 1],
    [30, 0.5],
    [90, 0],
    [(Math.asin(0.25) * 180) / Math.PI, 0.75],
  ])('a cut of %d degrees is %d full', (degrees, expected) => {
    const phi = (degrees * Math.PI) / 180;
    for (const angle of [0.3, 2, -1.1]) {
      const at = { x: 1, y: 0.5 };
      const centre = {
        x: at.x + 2 * R * Math.cos(angle + phi),
        y: at.y + 2 * R * Math.sin(angle + phi),
      };
      const fullness = fullnessAt(table, at, { x: Math.cos(angle), y: Math.sin(angle) }, centre);
      expect(Math.abs(fullness - expected)).toBeLessThan(TOLERANCE.closedForm);
    }
  });

  it('needs a direction', () => {
    expect(() => fullnessAt(table, { x: 0, y: 0 }, { x: 0, y: 0 }, { x: R, y: 0 })).toThrow('0, 0');
  });
});

describe('a hit on a path', () => {
  // The straight path y = 0: a ball b beside it is hit where the centers are 2R apart.
  it('that is straight is where geometry puts it, or nowhere', () => {
    fc.assert(
      fc.property(real(-2.2, 2.2), real(0.3, 0.9), (beside, ahead) => {
        const b = beside * R;
        const met = hitOnPath(table, [straight], { x: ahead, y: b });
        if (Math.abs(b) > 2 * R) {
          expect(met).toBeNull();
          return;
        }
        // A graze this fine is no hit (hit.ts).
        if (Math.abs(b) > 2 * R * (1 - 1e-7)) return;
        const hit = met?.hit as Hit;
        expect(Math.abs(hit.at.x - (ahead - Math.sqrt(4 * R * R - b * b)))).toBeLessThan(1e-6);
        expect(Math.abs(hit.fullness - (1 - Math.abs(b) / (2 * R)))).toBeLessThan(1e-8);
      }),
    );
  });

  // From ten thousand steps along the parabola: the first point within 2R, to a step.
  it('that is curved is the first point within two radii', () => {
    fc.assert(
      fc.property(
        real(0.5, 3),
        real(-1, 1),
        real(-3, 3),
        real(-3, 3),
        real(0.1, 0.6),
        real(-3, 3),
        (vx, vy, ax, ay, ahead, beside) => {
          const curve: Stretch = { ...straight, ball: { ...still, vx, vy }, ax, ay, duration: 0.4 };
          const on = pointAlong(curve, ahead * 0.4);
          const centre = { x: on.x, y: on.y + beside * R };
          if (Math.hypot(centre.x, centre.y) < 2.5 * R) return;
          const apart = (t: number) => {
            const { x, y } = pointAlong(curve, t);
            return Math.hypot(x - centre.x, y - centre.y) - 2 * R;
          };
          const steps = Array.from({ length: 10_001 }, (_, n) => (n * 0.4) / 10_000);
          const first = steps.find((t) => apart(t) <= 0);
          const met = hitOnPath(table, [curve], centre);
          if (first === undefined) {
            // Between two steps it may still graze, no deeper than a step's sagitta.
            if (met) expect(Math.min(...steps.map(apart))).toBeLessThan(1e-6);
            return;
          }
          const t = met?.stretches.at(-1)?.duration ?? Number.NaN;
          expect(Math.abs(apart(t))).toBeLessThan(2e-10);
          expect(t).toBeLessThanOrEqual(first);
          expect(t).toBeGreaterThan(first - 0.4 / 10_000 - 1e-9);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('ends the path there, within its stretch', () => {
    const next: Stretch = { ...straight, ball: { ...still, x: 1, vx: 1 } };
    const met = hitOnPath(table, [straight, next, next], { x: 1.5, y: R });
    expect(met?.stretches).toHaveLength(2);
    const last = met?.stretches[1] as Stretch;
    expect(pointAlong(last, last.duration)).toEqual(met?.hit.at);
  });

  it('is not made by a ball without size', () => {
    expect(hitOnPath({ ...table, ballRadius: 0 }, [straight], { x: 0.5, y: 0 })).toBeNull();
  });
});

describe('a ball struck before the last cushion', () => {
  it('lies on the path there, however near the start or the cushion', () => {
    const pattern = PATTERNS[0];
    const ball = ballOnLine(club, pattern, 3, 1.8, medium);
    if (!ball) throw new Error('the line leaves its rail');
    const { stretches, touches } = passCushions(club, ball, pattern.cushions);
    const touch = touches[0]?.at ?? ball;
    const between = { x: (ball.x + touch.x) / 2, y: (ball.y + touch.y) / 2 };
    const span = Math.hypot(touch.x - ball.x, touch.y - ball.y);
    const across = { x: (touch.y - ball.y) / span, y: (ball.x - touch.x) / span };
    for (const point of [ball, between, touch]) {
      for (const [beside, strikes] of [
        [0, true],
        [1.99, true],
        [-1.99, true],
        [2.01, false],
        [-2.01, false],
      ] as const) {
        const there = { x: point.x + beside * R * across.x, y: point.y + beside * R * across.y };
        expect(strikesFirst(table, stretches, there)).toBe(strikes);
      }
    }
  });

  it('is not a ball that is hit after it', () => {
    const route = kickTo(PATTERNS[2], 2);
    const solved = solveLine(club, route, 6, medium);
    const ball = ballOnLine(club, route, 6, solved.aim ?? 0, medium);
    if (!ball) throw new Error('the line leaves its rail');
    const { stretches } = passCushions(club, ball, route.cushions);
    const there = { x: 2 * diamondLength(table, 'left'), y: R };
    expect(strikesFirst(table, stretches, there)).toBe(false);
  });
});

describe('the half-width of a hit', () => {
  const ideal: Setting = {
    table: { ...table, sightSetback: 0, noseHeight: 0.5, sideMouth: 0, cornerMouth: 0 },
    condition: {
      ...CLUB_CLOTH,
      restitution: 1,
      noseFriction: 0,
      slideFriction: 0,
      rollFriction: 0,
    },
  };

  // Derived: without friction and at e = 1 the path is one straight line from the start's sight to
  // the ball's image in the cushion; half full is R beside the center, so the line may turn by δ with
  // sin δ = R over its length. The narrower side is the one nearer to square.
  it('in the ideal limit is that of a straight line to the image', () => {
    fc.assert(
      fc.property(real(5, 7.5), real(1, 4), real(1, 12), (a, b, radii) => {
        const off = radii * R;
        const route = kickTo(PATTERNS[2], b, off);
        const { aim } = solveLine(ideal, route, a, { speed: 3 });
        const { width, length } = ideal.table;
        // Unfolded over the touch line, one radius before the nose.
        const across = 2 * (width - R) - off;
        const back = ((b - a) * length) / 8;
        const middle = Math.atan2(back, across);
        const delta = Math.asin(R / Math.hypot(back, across));
        const at = (angle: number) => a + (Math.tan(angle) * width) / (length / 8);
        const expected = Math.min(
          Math.abs(at(middle + delta) - at(middle)),
          Math.abs(at(middle - delta) - at(middle)),
        );
        const found = hitHalfWidth(ideal, route, a, { speed: 3 }, aim ?? 0, 0, 2);
        expect(Math.abs(found - expected)).toBeLessThan(1.1e-5);
      }),
    );
  });

  // Paths of neighboring numbers diverge: the same line with the ball farther along it.
  it('shrinks as the ball stands farther along the line', () => {
    for (const [pattern, start, diamond] of [
      [PATTERNS[2], 7, 3],
      [PATTERNS[0], 4, 3],
      [PATTERNS[1], 5, 2],
    ] as const) {
      const { rail } = pattern.kicks;
      const { aim } = solveLine(club, kickTo(pattern, diamond), start, medium);
      if (aim === null) throw new Error(`no line from ${start}`);
      const last = playLine(club, kickTo(pattern, diamond), start, aim, medium)?.stretches.at(-1);
      if (!last?.rolling) throw new Error('it rolls to the rail');
      const widths = [0, 0.3, 0.6, 1].map((part) => {
        const { x, y } = pointAlong(last, part * last.duration);
        const off = rail === 'head' ? table.length - x : rail === 'left' ? y : table.width - y;
        const kick = kickTo(pattern, diamondOf(table, pattern.kicks, { x, y }), off);
        return hitHalfWidth(club, kick, start, medium, aim, 0, 1);
      });
      widths.forEach((width, n) => {
        expect(width).toBeGreaterThan(0.01);
        if (n > 0) expect(width).toBeLessThan(widths[n - 1] ?? 0);
      });
    }
  });

  it('stays within its bounds and is the least where the aim itself misses', () => {
    const kick = kickTo(PATTERNS[2], 3);
    const free = widthOf(kick, 7);
    expect(widthOf(kick, 7, 0, free / 2)).toBe(free / 2);
    expect(widthOf(kick, 7, 2 * free, 3 * free)).toBe(2 * free);
    expect(hitHalfWidth(club, kick, 7, medium, 6, 0.03, 0.5)).toBe(0.03);
  });

  it('refuses a pocket and reversed bounds', () => {
    expect(() => hitHalfWidth(club, PATTERNS[0], 3, medium, 1.8, 0, 1)).toThrow('right-side');
    const kick = kickTo(PATTERNS[2], 3);
    expect(() => hitHalfWidth(club, kick, 7, medium, 4, 1, 0.5)).toThrow('1 to 0.5');
  });
});

function widthOf(route: Route, start: number, least = 0, most = 1): number {
  const { aim } = solveLine(club, route, start, medium);
  if (aim === null) throw new Error(`no line from ${start}`);
  return hitHalfWidth(club, route, start, medium, aim, least, most);
}

const still = { x: 0, y: 0, vx: 0, vy: 0, wx: 0, wy: 0, wz: 0 };
/** One second along x at 1 m/s. */
const straight: Stretch = {
  ball: { ...still, vx: 1 },
  ax: 0,
  ay: 0,
  duration: 1,
  rolling: true,
};

function real(min: number, max: number) {
  return fc.double({ min, max, noNaN: true });
}
