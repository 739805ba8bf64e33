/** Laws that hold for any table, ball and stroke: symmetry, scale, energy, signs, no NaN. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { PATTERNS, type Pattern } from '../../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type Condition,
  type CushionLaw,
  cushionImpact,
  type Launch,
  MIRRORS,
  makeWindowOf,
  mirrorPoint,
  mirrorRoute,
  playLine,
  type Route,
  type Setting,
  SPEEDS,
  type Spinning,
  solveLine,
  solveStarts,
  TABLES,
  type Table,
  UNREACHABLE,
} from '../../src/table/index.ts';
import { randomShots } from '../oracle/grid.ts';
import { TOLERANCE } from './tolerances.ts';

describe('symmetry', () => {
  // The table is its own mirror image across either middle line. A mirror reverses side and keeps
  // follow; two mirrors are half a turn, which changes neither.
  it('a mirrored shot ends at the mirror image, whatever the spin', () => {
    for (const { setting, route, start, aim, launch } of randomShots(300, 7)) {
      const plain = playLine(setting, route, start, aim, launch);
      if (!plain) throw new Error('the shot has a line');
      for (const mirror of MIRRORS) {
        const turned = mirror.leftRight !== mirror.footHead && launch.side !== undefined;
        const struck = turned ? { ...launch, side: -(launch.side ?? 0) } : launch;
        const image = playLine(setting, mirrorRoute(route, mirror), start, aim, struck);
        const at = mirrorPoint(setting.table, plain.end, mirror);
        expect(image?.arrived).toBe(plain.arrived);
        expect(Math.hypot((image?.end.x ?? 9) - at.x, (image?.end.y ?? 9) - at.y)).toBeLessThan(
          1e-6,
        );
      }
    }
  });
});

describe('the impact', () => {
  it('is homogeneous: all speeds in times q give all speeds out times q', () => {
    fc.assert(
      fc.property(
        chartLaw,
        anyBall,
        fc.double({ min: -3, max: 3, noNaN: true }),
        (law, ball, power) => {
          const q = 10 ** power;
          const once = cushionImpact(law, ball);
          const more = cushionImpact(law, scaled(ball, q));
          expect(more === null).toBe(once === null);
          if (!once || !more) return;
          const size = q * Math.sqrt(energy(ball));
          for (const key of ['vx', 'vy', 'wx', 'wy', 'wz'] as const) {
            expect(Math.abs(more[key] - q * once[key])).toBeLessThan(1e-6 * size);
          }
        },
      ),
      { numRuns: 500 },
    );
  });

  // Energy over m/2: v² + 2/5 w², including spin about the vertical (solid ball, I = 2/5 m R²).
  it('never gains energy and never yields NaN: no friction, dead and perfect cushions, tiny speeds', () => {
    fc.assert(
      fc.property(anyLaw, anyBall, fc.constantFrom(1e-9, 1e-3, 1, 100), (law, ball, q) => {
        const into = scaled(ball, q);
        const out = cushionImpact(law, into);
        if (!out) return;
        expect(Object.values(out).every(Number.isFinite)).toBe(true);
        expect(out.vy).toBeLessThanOrEqual(1e-6 * q);
        expect(energy(out)).toBeLessThanOrEqual(energy(into) * (1 + TOLERANCE.impact));
      }),
      { numRuns: 5000 },
    );
  });
});

/** Error of integration in the arrivals of two nearly equal shots, meters: 0.0003 diamond. */
const OPEN = 1e-4;

// Alciatore, bank and kick effects: more speed shortens, follow lengthens, running side lengthens.
// Here as orders over all speeds and offsets, for any cloth and cushion inside the published ranges.
describe('across the table and back', () => {
  it('a faster ball never comes back longer', () => {
    fc.assert(
      fc.property(published, aims, twoOf(1.3, 5.4), (condition, aim, [slow, fast]) => {
        const soft = travel(condition, aim, { speed: slow });
        const firm = travel(condition, aim, { speed: fast });
        if (soft !== null && firm !== null) expect(firm).toBeLessThan(soft + OPEN);
      }),
      { numRuns: 500 },
    );
  });

  // Follow lengthens only up to natural roll: with more, the ball arrives rolling all the same, only
  // faster, and more speed shortens.
  it.each([
    ['follow (less draw)', 'follow', -0.4, 0],
    ['running side', 'running', -0.4, 0.4],
  ] as const)('more %s never brings it back shorter', (_name, spin, least, most) => {
    fc.assert(
      fc.property(published, aims, twoOf(least, most), (condition, aim, [less, more]) => {
        // The ball starts close to the cushion so that it still spins there.
        const close = { speed: 2.235, along: 0.9 };
        const short = travel(condition, aim, { ...close, [spin]: less });
        const long = travel(condition, aim, { ...close, [spin]: more });
        if (short !== null && long !== null) expect(long).toBeGreaterThan(short - OPEN);
      }),
      { numRuns: 500 },
    );
  });
});

describe('no NaN leaves the room', () => {
  it('on any table a line has a finite number or a reason, and its window finite ends', () => {
    fc.assert(
      fc.property(
        anySetting,
        anyRoute,
        fc.double({ min: 0, max: 8, noNaN: true }),
        anyLaunch,
        (setting, route, start, launch) => {
          const solved = solveLine(setting, route, start, launch);
          if (solved.why !== null) {
            expect(UNREACHABLE).toContain(solved.why);
            expect(solved.aim).toBeNull();
            return;
          }
          expect(Number.isFinite(solved.aim)).toBe(true);
          expect(Number.isFinite(solved.drift)).toBe(true);
          const window = makeWindowOf(setting, route, start, launch, solved.aim);
          if (window) expect(window.to - window.from).toBeGreaterThanOrEqual(0);
        },
      ),
      { numRuns: 400 },
    );
  });

  it('a whole pattern has finite numbers or reasons', () => {
    fc.assert(
      fc.property(anySetting, anyRoute, (setting, route) => {
        const [first, last] = route.starts;
        const starts = [first, (first + last) / 2, last];
        for (const line of solveStarts(setting, route, starts, route.stroke)) {
          for (const speed of SPEEDS) {
            const { aim, why } = line[speed];
            if (why === null) expect(Number.isFinite(aim)).toBe(true);
            else expect(UNREACHABLE).toContain(why);
          }
        }
      }),
      { numRuns: 100 },
    );
  });
});

const across: Route = {
  start: { rail: 'left', from: 'foot' },
  aim: { rail: 'right', from: 'foot' },
  cushions: ['right'],
  target: { kind: 'rail', count: { rail: 'left', from: 'foot' }, diamond: 3 },
};

/** How far towards the foot a ball from 6 returns to its own rail, meters; null if it does not. */
function travel(condition: Condition, aim: number, launch: Launch): number | null {
  const table = TABLES['9ft'];
  const flight = playLine({ table, condition }, across, 6, aim, launch);
  return flight?.arrived ? table.length - flight.end.x : null;
}

function scaled(ball: Spinning, q: number): Spinning {
  const { vx, vy, wx, wy, wz } = ball;
  return { vx: q * vx, vy: q * vy, wx: q * wx, wy: q * wy, wz: q * wz };
}

function energy({ vx, vy, wx, wy, wz }: Spinning): number {
  return vx ** 2 + vy ** 2 + 0.4 * (wx ** 2 + wy ** 2 + wz ** 2);
}

const from = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const orEnds = (min: number, max: number) => fc.oneof(fc.constantFrom(min, max), from(min, max));
const aims = from(4, 5);

function twoOf(min: number, max: number) {
  return fc
    .tuple(from(min, max), from(min, max))
    .map(([a, b]) => [Math.min(a, b), Math.max(a, b)] as const);
}

const anyLaw: fc.Arbitrary<CushionLaw> = fc.record({
  restitution: fc.oneof(orEnds(0, 1), from(0, 1e-3)),
  noseFriction: orEnds(0, 0.25),
  clothFriction: orEnds(0, 0.5),
  contactSine: orEnds(0, 0.27),
});
/** Inside a chart's limits (src/charts/document/schema.ts). */
const chartLaw: fc.Arbitrary<CushionLaw> = fc.record({
  restitution: orEnds(0.5, 1),
  noseFriction: orEnds(0, 0.25),
  clothFriction: orEnds(0.05, 0.5),
  contactSine: orEnds(0, 0.27),
});
const anyBall: fc.Arbitrary<Spinning> = fc.record({
  vx: orEnds(-3, 3),
  vy: orEnds(1e-3, 3),
  wx: from(-3, 3),
  wy: from(-3, 3),
  wz: orEnds(-3, 3),
});

/** Alciatore, physics FAQ: e 0.6–0.9, μs 0.15–0.4, μr 0.005–0.015; μw around Mathavan's 0.14. */
const published: fc.Arbitrary<Condition> = fc
  .record({
    restitution: from(0.6, 0.9),
    noseFriction: from(0.1, 0.2),
    slideFriction: from(0.15, 0.4),
    rollFriction: from(0.005, 0.015),
  })
  .map((condition) => ({ ...CLUB_CLOTH, ...condition }));

/** Any condition, even an impossible one, on tables from a tenth to ten times their size. */
const anySetting: fc.Arbitrary<Setting> = fc
  .record({
    restitution: orEnds(0, 1),
    noseFriction: orEnds(0, 0.25),
    slideFriction: orEnds(0, 0.5),
    rollFriction: orEnds(0, 0.05),
    spinDecay: orEnds(0, 100),
    soft: from(1e-3, 10),
    scale: fc.constantFrom(0.1, 0.5, 1, 1, 1, 10),
    table: fc.constantFrom(...Object.values(TABLES)),
  })
  .map(({ soft, scale, table, ...rest }) => ({
    table: scaledTable(table, scale),
    condition: { ...rest, speeds: { soft, medium: 1.4 * soft, firm: 2 * soft } },
  }));

function scaledTable(table: Table, q: number): Table {
  return { ...table, length: q * table.length, width: q * table.width };
}

const anyRoute: fc.Arbitrary<Pattern> = fc.constantFrom(...PATTERNS);
const offset = fc.oneof(fc.constant(0), from(-0.5, 0.5));
const anyLaunch: fc.Arbitrary<Launch> = fc.record({
  speed: fc.oneof(from(1e-6, 0.1), from(0.1, 12)),
  follow: offset,
  side: offset,
  running: offset,
  partWay: orEnds(0, 0.5),
});
