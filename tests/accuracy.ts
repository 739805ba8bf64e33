/** How far the table room is from each outside reference: the rows of the table in docs/numbers.md. */

import { kickTo, PATTERNS, type Pattern } from '../src/charts/index.ts';
import {
  type Ball,
  CLUB_CLOTH,
  type CushionLaw,
  cushionImpact,
  GRAVITY,
  mirrorAim,
  type Setting,
  SPEEDS,
  type Spinning,
  solveLine,
  solveSpeeds,
  TABLES,
} from '../src/table/index.ts';
import { ballAlong, stretchFrom } from '../src/table/motion.ts';
import { dice } from './oracle/dice.ts';
import { compareOnGrid, GRID } from './oracle/grid.ts';
import { apart, endByBruteForce, endOfOurs, type Shot } from './oracle/shot.ts';

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
const patterns: readonly Pattern[] = PATTERNS;

export function accuracyRows(): readonly AccuracyRow[] {
  return [
    mirrorRow(1, 'one cushion'),
    mirrorRow(2, 'two cushions'),
    mirrorRow(3, 'three cushions'),
    planarRow(),
    rollingRow(),
    curveRow(),
    bruteForceRow(),
    gridRow(),
  ];
}

function rowOf(
  what: string,
  reference: string,
  unit: string,
  gaps: readonly number[],
): AccuracyRow {
  if (gaps.length === 0) throw new Error(`nothing to measure: ${what}`);
  const sizes = gaps.map(Math.abs);
  const mean = sizes.reduce((sum, gap) => sum + gap, 0) / sizes.length;
  return { what, reference, unit, count: sizes.length, mean, max: Math.max(...sizes) };
}

/**
 * The ideal limit against Heron's construction, the straight line on unfolded tables: to a pocket
 * and to a point of the rail.
 */
function mirrorRow(cushions: number, name: string): AccuracyRow {
  const bare = { ballRadius: 0, sightSetback: 0, noseHeight: 0.5 };
  // Pockets so small that they swallow no cushion.
  const table = { ...club.table, ...bare, sideMouth: 1e-3, cornerMouth: 1e-3 };
  const none = { noseFriction: 0, slideFriction: 0, rollFriction: 0 };
  const condition = { ...CLUB_CLOTH, restitution: 1, ...none };
  const banks = lines(cushions);
  const kicks = banks.map(({ route, start }) => ({ route: kickTo(route, 2.25), start }));
  const gaps = [...banks, ...kicks].flatMap(({ route, start }) => {
    const { aim } = solveLine({ table, condition }, route, start, { speed: 3 });
    return aim === null ? [] : [aim - mirrorAim(table, route, start)];
  });
  return rowOf(`ideal limit, ${name}`, 'mirror construction', 'diamond', gaps);
}

/** Center-height contact, no spin: planar Coulomb impact in closed form, sliding and sticking. */
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

/** Random balls to the end of their slide: where they settle and how they then roll. */
function curveRow(): AccuracyRow {
  const roll = dice(1835);
  const speed = () => 8 * roll() - 4;
  const gaps = Array.from({ length: 1000 }, () => {
    const ball = { x: 0, y: 0, vx: speed(), vy: speed(), wx: speed(), wy: speed(), wz: speed() };
    return slideGap(ball);
  });
  return rowOf('curve of a sliding ball', 'closed form (Coriolis 1835)', 'm', gaps);
}

/** The path is a parabola: it ends at the mean of first and last velocity, times 2u/(7 μs g). */
function slideGap(ball: Ball): number {
  const slide = stretchFrom(CLUB_CLOTH, ball);
  if (!slide) throw new Error('the ball should slide');
  const end = ballAlong(CLUB_CLOTH, slide, slide.duration, club.table.ballRadius);
  const slip = Math.hypot(ball.vx - ball.wy, ball.vy + ball.wx);
  const time = (2 * slip) / (7 * CLUB_CLOTH.slideFriction * GRAVITY);
  const settledX = (5 / 7) * (ball.vx + 0.4 * ball.wy);
  const settledY = (5 / 7) * (ball.vy - 0.4 * ball.wx);
  return Math.hypot(
    end.x - ((ball.vx + settledX) / 2) * time,
    end.y - ((ball.vy + settledY) / 2) * time,
  );
}

function bruteForceRow(): AccuracyRow {
  const gaps = shots()
    .filter((_, n) => n % 9 === 5)
    .map((shot) => apart(shot, endOfOurs(shot), endByBruteForce(shot)));
  return rowOf('arrival of the catalogue', 'brute force, small fixed steps', 'diamond', gaps);
}

function gridRow(): AccuracyRow {
  const gaps = compareOnGrid(2000, GRID.seed).map(({ gap }) => gap);
  return rowOf('arrival of random shots', 'general ODE solver (odex 2.0.4)', 'diamond', gaps);
}

function lines(cushions?: number): readonly { readonly route: Pattern; readonly start: number }[] {
  return patterns.flatMap((route) => {
    if (cushions !== undefined && route.cushions.length !== cushions) return [];
    const all = [];
    for (let start = route.starts[0] + 0.5; start <= route.starts[1]; start++)
      all.push({ route, start });
    return all;
  });
}

/** The catalogue of the 9 ft table at its own numbers, as it is struck. */
function shots(): readonly Shot[] {
  return lines().flatMap(({ route, start }) => {
    const numbers = solveSpeeds(club, route, start, route.stroke);
    return SPEEDS.flatMap((speed) => {
      const { aim } = numbers[speed];
      const launch = { ...route.stroke, speed: CLUB_CLOTH.speeds[speed] };
      return aim === null ? [] : [{ setting: club, route, start, aim, launch }];
    });
  });
}

function hit(law: CushionLaw, ball: Spinning): Spinning {
  const out = cushionImpact(law, ball);
  if (!out) throw new Error('the ball should rebound');
  return out;
}
