import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  CLUB_CLOTH,
  type Condition,
  type CushionLaw,
  cushionImpact,
  GRAVITY,
  type Spinning,
} from '../../src/table/index.ts';
import { ballAlong, stretchFrom } from '../../src/table/motion.ts';
import { impactByBruteForce, impactByOde } from '../oracle/impact.ts';
import { TOLERANCE } from './tolerances.ts';

const DEGREE = Math.PI / 180;
const noSpin = { wx: 0, wy: 0, wz: 0 };

describe('a frictionless cushion', () => {
  // Derived from the definition of restitution: the normal speed is multiplied by e, the other is kept.
  it('gives tan out = tan in / e at any speed', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 85, noNaN: true }),
        speedArb,
        restitutionArb,
        (degrees, v, e) => {
          const tan = Math.tan(degrees * DEGREE);
          const out = hit({ ...bare, restitution: e }, { vx: v * tan, vy: v, ...noSpin });
          // One in many thousand random balls is off by 8e-7: six decimals are too fine.
          expect(Math.abs(out.vx / -out.vy - tan / e)).toBeLessThan(TOLERANCE.impact * (1 + tan));
        },
      ),
    );
  });
});

describe('contact at the height of the centre, with a ball without spin', () => {
  // Closed form of planar Coulomb impact, derived from Newton's laws: sliding throughout if
  // μ(1 + e) < 2/7 tan in, then tan out = (tan in − μ(1 + e))/e; otherwise sticking, 5/7 tan in / e.
  it.each([
    [15, 11.05],
    [30, 22.82],
    [45, 36.41],
    [60, 56.04],
  ])('rebounds from %d° at %d° (e 0.98, μ 0.14)', (into, outOf) => {
    const law = { ...bare, restitution: 0.98, noseFriction: 0.14 };
    const out = hit(law, { vx: Math.tan(into * DEGREE), vy: 1, ...noSpin });
    const degrees = Math.atan2(out.vx, -out.vy) / DEGREE;
    expect(Math.abs(degrees - outOf)).toBeLessThan(TOLERANCE.degreesTwoDecimals);
  });

  it('follows the closed form through sliding and sticking', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 1, max: 80, noNaN: true }),
        restitutionArb,
        frictionArb,
        (into, e, mu) => {
          const tan = Math.tan(into * DEGREE);
          const slides = mu * (1 + e) < (2 / 7) * tan;
          const expected = slides ? (tan - mu * (1 + e)) / e : ((5 / 7) * tan) / e;
          const law = { ...bare, restitution: e, noseFriction: mu };
          const out = hit(law, { vx: tan, vy: 1, ...noSpin });
          expect(Math.abs(out.vx / -out.vy - expected)).toBeLessThan(TOLERANCE.impact * (1 + tan));
        },
      ),
    );
  });
});

describe('a rolling ball off a frictionless cushion, once it rolls again', () => {
  // Derived from Coriolis' settled velocity: tan final = 7 tan in/(5e − 2), speed ratio (5e − 2)/7.
  it.each([
    [0.98, 0.4143],
    [0.85, 0.3214],
  ])('keeps the right share of its speed straight in at e %d', (e, ratio) => {
    const out = hit({ ...bare, restitution: e }, rolling(90));
    expect(Math.abs(-settled(out).vy - ratio)).toBeLessThan(0.00005);
  });

  it('opens its angle to 7 tan in/(5e − 2)', () => {
    const tan = Math.tan(40 * DEGREE);
    const after = settled(hit({ ...bare, restitution: 0.85 }, rolling(50)));
    expect(after.vx / -after.vy).toBeCloseTo((7 * tan) / (5 * 0.85 - 2), 6);
  });

  // Derived: the curve reaches 2(1 + e)(6e − 1) v_n²/(49 μs g) from the cushion.
  it.each([
    [1, 0.0712],
    [2, 0.2847],
    [4, 1.1388],
  ])('curves out to the right distance at %d m/s', (v, extent) => {
    const into = { vx: v * Math.SQRT1_2, vy: v * Math.SQRT1_2 };
    const out = hit({ ...bare, restitution: 0.8 }, { ...into, wx: -into.vy, wy: into.vx, wz: 0 });
    const cloth: Condition = { ...CLUB_CLOTH, slideFriction: 0.2 };
    const slide = stretchFrom(cloth, { x: 0, y: 0, ...out });
    if (!slide) throw new Error('the ball should slide');
    expect(GRAVITY).toBe(9.80665);
    expect(Math.abs(-ballAlong(cloth, slide, slide.duration, 0).y - extent)).toBeLessThan(0.00005);
  });
});

describe('the full model, rolling ball at 1 m/s (e 0.85, μw 0.14, μs 0.2, sin θ 0.27)', () => {
  // From a second implementation of the equations of Mathavan, Jackson & Parkin 2010 outside this
  // project. Angles from the rail.
  it.each([
    [75, 78.24, 0.836, 71.07, 0.548],
    [60, 63.87, 0.815, 50.18, 0.578],
    [45, 47.07, 0.815, 31.12, 0.662],
    [30, 29.68, 0.853, 16.85, 0.784],
  ])('in at %d°', (into, angle, speed, settledAngle, settledSpeed) => {
    const out = hit(full, rolling(into));
    const after = settled(out);
    expect(Math.abs(Math.atan2(-out.vy, out.vx) / DEGREE - angle)).toBeLessThan(0.005);
    expect(Math.abs(Math.hypot(out.vx, out.vy) - speed)).toBeLessThan(0.0005);
    expect(Math.abs(Math.atan2(-after.vy, after.vx) / DEGREE - settledAngle)).toBeLessThan(0.005);
    expect(Math.abs(Math.hypot(after.vx, after.vy) - settledSpeed)).toBeLessThan(0.0005);
  });

  it.each([
    [0.98, 0.616],
    [0.85, 0.54],
    [0.8, 0.506],
    [0.75, 0.465],
  ])('straight in at e %d settles at %d of its speed', (e, ratio) => {
    const after = settled(hit({ ...full, restitution: e }, rolling(90)));
    // One unit of the last printed decimal: at e 0.98 and 0.75 the model and the general ODE solver
    // both give 0.6155 and 0.4645, on the border of the printed rounding.
    expect(Math.abs(-after.vy - ratio)).toBeLessThan(0.0006);
  });

  it('rebounds at the same angles at twice the speed (constant restitution)', () => {
    fc.assert(
      fc.property(ballArb, (ball) => {
        const once = hit(full, ball);
        const twice = hit(full, scaled(ball, 2));
        expect(twice.vx).toBeCloseTo(2 * once.vx, 9);
        expect(twice.vy).toBeCloseTo(2 * once.vy, 9);
      }),
    );
  });
});

describe('laws of the impact', () => {
  it('is mirrored exactly: left and right differ only in sign', () => {
    fc.assert(
      fc.property(lawArb, ballArb, (law, ball) => {
        const a = hit(law, ball);
        const b = hit(law, { ...ball, vx: -ball.vx, wy: -ball.wy, wz: -ball.wz });
        expect([-b.vx, b.vy, b.wx, -b.wy, -b.wz].map(noMinusZero)).toEqual(
          [a.vx, a.vy, a.wx, a.wy, a.wz].map(noMinusZero),
        );
      }),
    );
  });

  it('never gains energy, always leaves the cushion, and never yields NaN', () => {
    fc.assert(
      fc.property(lawArb, ballArb, (law, ball) => {
        const out = hit(law, ball);
        expect(out.vy).toBeLessThan(0);
        expect(energy(out)).toBeLessThanOrEqual(energy(ball) * (1 + TOLERANCE.impact));
      }),
      { numRuns: 500 },
    );
  });

  it('does not happen to a ball that does not move into the cushion', () => {
    expect(cushionImpact(full, { vx: 1, vy: 0, ...noSpin })).toBeNull();
    expect(cushionImpact(full, { vx: 1, vy: -1, ...noSpin })).toBeNull();
  });

  it('handles slip that stops, sticks and starts again', () => {
    // Once a bug: a nose contact on the border between sticking and sliding never ended the impact.
    const wy = (0.4834835 - 0.4640124) / 1.27;
    const law = { restitution: 0.88, noseFriction: 0.15, clothFriction: 0.17, contactSine: 0.27 };
    const out = hit(law, { vx: 0.4640124 + wy, vy: 1, wx: -0.0319837, wy, wz: 0 });
    expect(out.vy).toBeLessThan(0);
  });

  it('ends where friction is just too weak to hold the nose', () => {
    // Once a bug: the slip all but stopped, and the steps with it.
    const law = { restitution: 0.88, noseFriction: 0.2, clothFriction: 0.25, contactSine: 0.27 };
    const out = hit(law, { vx: -0.16079, vy: 1, wx: -1, wy: -0.16079, wz: 0 });
    const slow = extrapolated(law, { vx: -0.16079, vy: 1, wx: -1, wy: -0.16079, wz: 0 }, 1e-5);
    expect(Math.hypot(out.vx - slow.vx, out.vy - slow.vy)).toBeLessThan(2e-5);
  });

  it('ends for balls that nearly graze the cushion, and does not happen to those that do', () => {
    // Once a bug: the rounding of a huge slip counted as slip, for ever.
    for (let power = 0; power <= 16; power += 0.25) {
      for (const roll of [0, 0.5, 1]) {
        const vy = 10 ** -power;
        const ball = { vx: 1, vy, wx: -roll * vy, wy: roll, wz: 0 };
        const out = cushionImpact({ ...full, noseFriction: 0.25, clothFriction: 0.5 }, ball);
        if (power > 6.01) expect(out).toBeNull();
        if (power < 5.9) expect(out?.vy).toBeLessThan(0);
      }
    }
  });

  it('treats friction next to nothing as none', () => {
    // Once a bug: 1/μ overflowed, and the impact did not end.
    const ball = rolling(50);
    const none = hit({ ...full, noseFriction: 0 }, ball);
    expect(hit({ ...full, noseFriction: 4.6e-174 }, ball)).toEqual(none);
  });

  it('ends for rolling and sliding balls over all frictions a chart may ask for', () => {
    for (let nose = 0; nose <= 0.25; nose += 0.01) {
      for (let cloth = 0.05; cloth <= 0.5; cloth += 0.01) {
        for (const [degrees, roll] of [
          [12, 1],
          [41, 0.5],
          [63, 1],
          [78, 0.75],
          [81, 1],
          [88, 1],
          [89.5, 0],
        ] as const) {
          const { vx, vy } = rolling(degrees);
          const law = {
            restitution: 0.88,
            noseFriction: nose,
            clothFriction: cloth,
            contactSine: 0.27,
          };
          hit(law, { vx, vy, wx: -roll * vy, wy: roll * vx, wz: 0 });
        }
      }
    }
  });

  it('ends for twenty thousand balls over all cushions', () => {
    fc.assert(
      fc.property(lawArb, ballArb, (law, ball) => hit(law, ball).vy < 0),
      {
        numRuns: 20_000,
      },
    );
  });

  // A second implementation (tests/oracle/impact.ts) with classical Runge–Kutta steps of 1e-4 and
  // friction that creeps by 5e-5: slow, and accurate to about twice that.
  it('agrees with brute force over random balls and cushions', () => {
    fc.assert(
      fc.property(lawArb, ballArb, (law, ball) => {
        const theirs = impactByBruteForce(law, ball, { h: 1e-4, creep: 5e-5 });
        expect(gap(hit(law, ball), theirs, ball)).toBeLessThan(2e-4);
      }),
      { numRuns: 60, seed: 20261125, endOnFailure: true },
    );
  });

  // odex 2.0.4 on the same second implementation, extrapolated from two sizes of creep to none.
  it('agrees with a general ODE solver over random balls and cushions', () => {
    fc.assert(
      fc.property(lawArb, ballArb, (law, ball) => {
        expect(gap(hit(law, ball), extrapolated(law, ball, 5e-5), ball)).toBeLessThan(1e-4);
      }),
      { numRuns: 500, seed: 20261125 },
    );
  });

  it('stops a leaving contact that has a little slip across its friction', () => {
    // Once a bug: with some slip left across the friction, the contact did not come to rest but was
    // driven backwards, off by 6e-3, 3e-3 and 2e-3 of the speed. Three of the six worst of 200,000
    // random impacts.
    for (const [e, mu, nu, vx, vy, wx, wy, wz] of [
      [
        0.968440402764827, 0.18972305505303666, 0.18901246830355378, 0.5224086647687715,
        0.8526952485938393, -0.7338326774519883, 0.24176274875435916, -0.00965968007221818,
      ],
      [
        0.7212339515984059, 0.182365833199583, 0.1802833329187706, 0.4463082462561822,
        0.8948792931584298, -0.5711270137095321, 0.2848414281423142, 0,
      ],
      [
        0.6106310367723927, 0.16741826226934792, 0.16652670901967212, 0.41772848352452474,
        0.9085719091256899, -0.32977472498308563, 0.1516184843359984, 0,
      ],
    ] as const) {
      const law = { restitution: e, noseFriction: mu, clothFriction: nu, contactSine: 0.27 };
      const ball = { vx, vy, wx, wy, wz };
      expect(gap(hit(law, ball), extrapolated(law, ball, 1e-5), ball)).toBeLessThan(2e-5);
    }
  });
});

/** The general solver with its creep extrapolated to none (the error is proportional to it). */
function extrapolated(law: CushionLaw, ball: Spinning, creep: number): Spinning {
  const fine = impactByOde(law, ball, { tolerance: 1e-9, creep });
  const coarse = impactByOde(law, ball, { tolerance: 1e-9, creep: 2 * creep });
  return {
    vx: 2 * fine.vx - coarse.vx,
    vy: 2 * fine.vy - coarse.vy,
    wx: 2 * fine.wx - coarse.wx,
    wy: 2 * fine.wy - coarse.wy,
    wz: 2 * fine.wz - coarse.wz,
  };
}

const bare: CushionLaw = { restitution: 1, noseFriction: 0, clothFriction: 0, contactSine: 0 };
const full: CushionLaw = {
  restitution: 0.85,
  noseFriction: 0.14,
  clothFriction: 0.2,
  contactSine: 0.27,
};

function hit(law: CushionLaw, ball: Spinning): Spinning {
  const out = cushionImpact(law, ball);
  if (!out) throw new Error('the ball should rebound');
  for (const value of Object.values(out)) expect(Number.isFinite(value)).toBe(true);
  return out;
}

/** 1 m/s at an angle from the rail, rolling. */
function rolling(degreesFromRail: number): Spinning {
  const vx = Math.cos(degreesFromRail * DEGREE);
  const vy = Math.sin(degreesFromRail * DEGREE);
  return { vx, vy, wx: -vy, wy: vx, wz: 0 };
}

function settled(ball: Spinning) {
  return { vx: (5 / 7) * (ball.vx + 0.4 * ball.wy), vy: (5 / 7) * (ball.vy - 0.4 * ball.wx) };
}

/** Difference of two rebounds, spins included, as a fraction of the incoming speed. */
function gap(a: Spinning, b: Spinning, ball: Spinning): number {
  const off = Math.hypot(a.vx - b.vx, a.vy - b.vy, a.wx - b.wx, a.wy - b.wy, a.wz - b.wz);
  return off / Math.hypot(ball.vx, ball.vy);
}

function scaled(ball: Spinning, q: number): Spinning {
  const { vx, vy, wx, wy, wz } = ball;
  return { vx: q * vx, vy: q * vy, wx: q * wx, wy: q * wy, wz: q * wz };
}

function energy(ball: Spinning): number {
  return ball.vx ** 2 + ball.vy ** 2 + 0.4 * (ball.wx ** 2 + ball.wy ** 2 + ball.wz ** 2);
}

function noMinusZero(value: number): number {
  return value === 0 ? 0 : value;
}

const speedArb = fc.double({ min: 0.1, max: 6, noNaN: true });
const restitutionArb = fc.double({ min: 0.5, max: 1, noNaN: true });
const frictionArb = fc.double({ min: 0.01, max: 0.3, noNaN: true });
const lawArb: fc.Arbitrary<CushionLaw> = fc
  .tuple(restitutionArb, frictionArb, frictionArb, fc.double({ min: 0, max: 0.3, noNaN: true }))
  .map(([restitution, noseFriction, clothFriction, contactSine]) => ({
    restitution,
    noseFriction,
    clothFriction,
    contactSine,
  }));
const spin = fc.double({ min: -3, max: 3, noNaN: true });
const ballArb: fc.Arbitrary<Spinning> = fc
  .tuple(spin, fc.double({ min: 0.2, max: 3, noNaN: true }), spin, spin, spin)
  .map(([vx, vy, wx, wy, wz]) => ({ vx, vy, wx, wy, wz }));
