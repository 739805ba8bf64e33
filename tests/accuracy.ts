/** How far the table room is from each outside reference: the rows of README's accuracy table. */

import { PATTERNS } from '../src/charts/index.ts';
import {
  CLUB_CLOTH,
  type CushionLaw,
  cushionImpact,
  diamondLength,
  mirrorAim,
  type Route,
  type Setting,
  SPEEDS,
  type Spinning,
  solveLine,
  TABLES,
} from '../src/table/index.ts';
import {
  crossingByBruteForce,
  crossingByOde,
  crossingOfOurs,
  type OneCushionShot,
} from './oracle/shot.ts';

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
  return [mirrorRow(), planarRow(), rollingRow(), bruteForceRow(), odexRow()];
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

/** The ideal limit against Heron's construction: the straight line on unfolded tables. */
function mirrorRow(): AccuracyRow {
  const table = { ...club.table, ballRadius: 0, sightSetback: 0, noseHeight: 0.5 };
  const condition = {
    ...CLUB_CLOTH,
    restitution: 1,
    noseFriction: 0,
    slideFriction: 0,
    rollFriction: 0,
  };
  const gaps = lines().map(({ route, start }) => {
    const { aim } = solveLine({ table, condition }, route, start, { speed: 3 });
    return (aim ?? Number.NaN) - mirrorAim(table, route, start);
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

function bruteForceRow(): AccuracyRow {
  const some = shots().filter((_, n) => n % 11 === 5);
  const gaps = some.map((shot) =>
    inDiamonds(crossingOfOurs(club, shot) - crossingByBruteForce(club, shot)),
  );
  return rowOf('arrival of whole shots', 'brute force, small fixed steps', 'diamond', gaps);
}

function odexRow(): AccuracyRow {
  const accuracy = { tolerance: 1e-9, creep: 3e-5 };
  const gaps = shots().map((shot) =>
    inDiamonds(crossingOfOurs(club, shot) - crossingByOde(club, shot, accuracy)),
  );
  return rowOf('arrival of whole shots', 'general ODE solver (odex 2.0.4)', 'diamond', gaps);
}

function inDiamonds(metres: number): number {
  return metres / diamondLength(club.table, 'left');
}

function lines(): readonly { readonly route: Route; readonly start: number }[] {
  return PATTERNS.flatMap((route) => {
    const all = [];
    for (let start = route.starts[0] + 0.5; start <= route.starts[1]; start++)
      all.push({ route, start });
    return all;
  });
}

function shots(): readonly OneCushionShot[] {
  return lines().flatMap(({ route, start }) =>
    SPEEDS.map((speed) => ({
      route,
      start,
      aim: mirrorAim(club.table, route, start),
      speed: CLUB_CLOTH.speeds[speed],
    })),
  );
}

function hit(law: CushionLaw, ball: Spinning): Spinning {
  const out = cushionImpact(law, ball);
  if (!out) throw new Error('the ball should rebound');
  return out;
}
