/** How far the table room is from each outside reference: the rows of README's accuracy table. */

import { kickTo, PATTERNS, type Pattern } from '../src/charts/index.ts';
import {
  type Ball,
  CLUB_CLOTH,
  type CushionLaw,
  cushionImpact,
  GRAVITY,
  mirrorAim,
  pointAlong,
  type Setting,
  type Spinning,
  settledVelocity,
  solveLine,
  TABLES,
} from '../src/table/index.ts';
import { stretchFrom } from '../src/table/motion.ts';
import { compareOnGrid, randomShots } from './oracle/grid.ts';
import { apart, endByBruteForce, endOfOurs } from './oracle/shot.ts';

export interface AccuracyRow {
  readonly what: string;
  readonly reference: string;
  readonly unit: string;
  readonly count: number;
  readonly mean: number;
  readonly max: number;
}

const DEGREE = Math.PI / 180;
const club: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };

export function accuracyRows(): readonly AccuracyRow[] {
  return [mirrorRow(), planarRow(), rollingRow(), curveRow(), bruteForceRow(), odexRow()];
}

function rowOf(
  what: string,
  reference: string,
  unit: string,
  gaps: readonly number[],
): AccuracyRow {
  const sizes = gaps.map(Math.abs);
  const mean = sizes.reduce((sum, gap) => sum + gap, 0) / sizes.length;
  return { what, reference, unit, count: sizes.length, mean, max: Math.max(...sizes) };
}

/**
 * The ideal limit against Heron's construction: the straight line on unfolded tables, off one, two
 * and three cushions, to a pocket or a point of a rail.
 */
function mirrorRow(): AccuracyRow {
  const table = { ...club.table, ballRadius: 0, sightSetback: 0, noseHeight: 0.5 };
  const condition = {
    ...CLUB_CLOTH,
    restitution: 1,
    noseFriction: 0,
    slideFriction: 0,
    rollFriction: 0,
  };
  const gaps = lines().flatMap(({ route, start }) => {
    const { aim } = solveLine({ table, condition }, route, start, { speed: 3 });
    return aim === null ? [] : [aim - mirrorAim(table, route, start)];
  });
  return rowOf('numbers in the ideal limit', 'mirror construction', 'diamond', gaps);
}

/** Centre-height contact, no spin: planar Coulomb impact in closed form, sliding and sticking. */
function planarRow(): AccuracyRow {
  const gaps: number[] = [];
  for (let degrees = 2; degrees <= 80; degrees += 2) {
    for (const [e, mu] of [
      [0.98, 0.14],
      [0.85, 0.15],
      [0.7, 0.25],
    ] as const) {
      const tan = Math.tan(degrees * DEGREE);
      const slides = mu * (1 + e) < (2 / 7) * tan;
      const expected = slides ? (tan - mu * (1 + e)) / e : ((5 / 7) * tan) / e;
      const law = { restitution: e, noseFriction: mu, clothFriction: 0, contactSine: 0 };
      const out = hit(law, { vx: tan, vy: 1, wx: 0, wy: 0, wz: 0 });
      gaps.push((Math.atan2(out.vx, -out.vy) - Math.atan(expected)) / DEGREE);
    }
  }
  return rowOf('rebound without spin', 'closed form of planar impact', 'degree', gaps);
}

/** The full model at 1 m/s, rolling: angles derived by a second implementation outside this project. */
function rollingRow(): AccuracyRow {
  const law = { restitution: 0.85, noseFriction: 0.14, clothFriction: 0.2, contactSine: 0.27 };
  const table = [
    [75, 78.24, 71.07],
    [60, 63.87, 50.18],
    [45, 47.07, 31.12],
    [30, 29.68, 16.85],
  ] as const;
  const gaps = table.flatMap(([into, outOf, settled]) => {
    const vx = Math.cos(into * DEGREE);
    const vy = Math.sin(into * DEGREE);
    const out = hit(law, { vx, vy, wx: -vy, wy: vx, wz: 0 });
    const after = Math.atan2(-(out.vy - 0.4 * out.wx), out.vx + 0.4 * out.wy) / DEGREE;
    return [Math.atan2(-out.vy, out.vx) / DEGREE - outOf, after - settled];
  });
  return rowOf('rebound of a rolling ball', 'second implementation, two decimals', 'degree', gaps);
}

/**
 * A centre hit that slides until it rolls, off any slip: the settled velocity of Coriolis 1835, and
 * how far across its way a ball with spin about the line of travel has curved when it rolls,
 * a t²/2 with a = μs g and t = 2u/(7 μs g) (Shepard), derived from both.
 */
function curveRow(): AccuracyRow {
  const gaps: number[] = [];
  for (let spin = -3; spin <= 3; spin += 0.25) {
    const v = 2;
    const ball: Ball = { x: 0, y: 0, vx: v, vy: 0, wx: spin, wy: v, wz: 0 };
    const stretch = stretchFrom(CLUB_CLOTH, ball);
    if (!stretch || spin === 0) continue;
    const grip = CLUB_CLOTH.slideFriction * GRAVITY;
    const t = (2 * Math.abs(spin)) / (7 * grip);
    const across = (-Math.sign(spin) * grip * t * t) / 2;
    gaps.push(pointAlong(stretch, stretch.duration).y - across);
    gaps.push(settledVelocity(ball).y - (5 / 7) * (-0.4 * spin));
  }
  return rowOf('the curve on the cloth', 'closed form of Coriolis', 'm, m/s', gaps);
}

function bruteForceRow(): AccuracyRow {
  const gaps = randomShots(12, SEED + 1).map((shot) =>
    apart(shot, endOfOurs(shot), endByBruteForce(shot)),
  );
  return rowOf('random shots, any pattern', 'brute force, small fixed steps', 'diamond', gaps);
}

const SEED = 20261125;

function odexRow(): AccuracyRow {
  const gaps = compareOnGrid(2000, SEED).map(({ gap }) => gap);
  return rowOf('random shots, any pattern', 'general ODE solver (odex 2.0.4)', 'diamond', gaps);
}

/** Every pattern as a bank and as a kick, from whole and half starts alternately. */
function lines(): readonly { readonly route: Pattern; readonly start: number }[] {
  return PATTERNS.flatMap((pattern: Pattern) => {
    const all = [];
    for (let start = pattern.starts[0]; start <= pattern.starts[1]; start++) {
      all.push({ route: pattern, start }, { route: kickTo(pattern, 2.25), start: start });
    }
    return all;
  });
}

function hit(law: CushionLaw, ball: Spinning): Spinning {
  const out = cushionImpact(law, ball);
  if (!out) throw new Error('the ball should rebound');
  return out;
}
