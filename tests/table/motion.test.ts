import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type Ball, CLUB_CLOTH, GRAVITY, settledVelocity } from '../../src/table/index.ts';
import { ballAlong, stretchFrom, timeTo } from '../../src/table/motion.ts';
import { slideByOde } from '../oracle/cloth.ts';

const still: Ball = { x: 0, y: 0, vx: 0, vy: 0, wx: 0, wy: 0, wz: 0 };
const R = 0.028575;
const mu = CLUB_CLOTH.slideFriction;

describe('sliding', () => {
  // Coriolis 1835; Shepard; Thome: a center hit slides 12 v²/(49 μs g) and settles at 5/7 v.
  it('of a centre hit ends after 12 v²/(49 μs g) at 5/7 of the speed', () => {
    for (const v of [0.5, 2.235, 4.6]) {
      const slide = stretchFrom(CLUB_CLOTH, { ...still, vx: v });
      if (!slide) throw new Error('the ball should slide');
      const end = ballAlong(CLUB_CLOTH, slide, slide.duration, R);
      expect(end.x).toBeCloseTo((12 * v * v) / (49 * mu * GRAVITY), 12);
      expect(end.vx).toBeCloseTo((5 / 7) * v, 12);
      expect(slide.duration).toBeCloseTo((2 * v) / (7 * mu * GRAVITY), 12);
    }
  });

  it('settles at 5/7 (Vx + 2/5 Wy, Vy − 2/5 Wx) whatever the spin (Coriolis 1835)', () => {
    fc.assert(
      fc.property(anyBall, (ball) => {
        const slide = stretchFrom(CLUB_CLOTH, ball);
        if (!slide || slide.rolling) return;
        const end = ballAlong(CLUB_CLOTH, slide, slide.duration, R);
        expect(end.vx).toBeCloseTo(settledVelocity(ball).x, 9);
        expect(end.vy).toBeCloseTo(settledVelocity(ball).y, 9);
        expect(end.vx - end.wy).toBe(0);
        expect(end.vy + end.wx).toBe(0);
      }),
    );
  });

  // odex 2.0.4 on the second implementation of the equations in tests/oracle.
  it('follows the path of a general ODE solver', () => {
    fc.assert(
      fc.property(anyBall, fc.double({ min: 0.05, max: 0.95, noNaN: true }), (ball, part) => {
        const slide = stretchFrom(CLUB_CLOTH, ball);
        if (!slide || slide.rolling || slide.duration < 1e-3) return;
        const t = part * slide.duration;
        const ours = ballAlong(CLUB_CLOTH, slide, t, R);
        const theirs = slideByOde(CLUB_CLOTH, ball, t, 1e-10);
        expect(ours.x).toBeCloseTo(theirs.x, 6);
        expect(ours.y).toBeCloseTo(theirs.y, 6);
      }),
      { numRuns: 40 },
    );
  });
});

describe('rolling', () => {
  it('slows by μr g in a straight line and stops (definition of rolling resistance)', () => {
    const roll = stretchFrom(CLUB_CLOTH, { ...still, vx: 1, wy: 1 });
    expect(roll?.rolling).toBe(true);
    const distance = roll && ballAlong(CLUB_CLOTH, roll, roll.duration, R).x;
    expect(distance).toBeCloseTo(1 / (2 * CLUB_CLOTH.rollFriction * GRAVITY), 12);
  });

  it('does not happen to a ball that lies still', () => {
    expect(stretchFrom(CLUB_CLOTH, still)).toBeNull();
  });
});

describe('crossing an edge', () => {
  it('happens on the edge and outwards, or not at all', () => {
    fc.assert(
      fc.property(anyBall, fc.double({ min: 0, max: 2, noNaN: true }), (ball, offset) => {
        const stretch = stretchFrom(CLUB_CLOTH, ball);
        if (!stretch) return;
        const t = timeTo(stretch, { nx: 1, ny: 0, offset });
        if (t === null) return;
        const at = ballAlong(CLUB_CLOTH, stretch, t, R);
        expect(at.x).toBeCloseTo(offset, 9);
        expect(at.vx).toBeGreaterThanOrEqual(-1e-9);
      }),
    );
  });

  it('happens on time for a ball without friction (uniform motion)', () => {
    const free = { ...CLUB_CLOTH, slideFriction: 0, rollFriction: 0 };
    const stretch = stretchFrom(free, { ...still, vx: 2 });
    if (!stretch) throw new Error('the ball should slide');
    expect(timeTo(stretch, { nx: 1, ny: 0, offset: 3 })).toBeCloseTo(1.5, 12);
  });

  it('happens for every ball that ends beyond the edge', () => {
    fc.assert(
      fc.property(anyBall, (ball) => {
        const stretch = stretchFrom(CLUB_CLOTH, ball);
        if (!stretch) return;
        const end = ballAlong(CLUB_CLOTH, stretch, stretch.duration, R).x;
        if (end < 1e-6) return;
        expect(timeTo(stretch, { nx: 1, ny: 0, offset: end / 2 })).not.toBeNull();
      }),
    );
  });

  it('does not happen to a ball that moves inwards from the edge', () => {
    const leaving = stretchFrom(CLUB_CLOTH, { ...still, vx: -1, wy: -1 });
    if (!leaving) throw new Error('the ball should roll');
    expect(timeTo(leaving, { nx: 1, ny: 0, offset: 0 })).toBeNull();
  });
});

const part = fc.double({ min: -5, max: 5, noNaN: true });
const anyBall: fc.Arbitrary<Ball> = fc
  .tuple(part, part, part, part, part)
  .map(([vx, vy, wx, wy, wz]) => ({ x: 0, y: 0, vx, vy, wx, wy, wz }));
