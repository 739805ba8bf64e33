/**
 * Random shots with a fixed seed, each judged by the general solver. The solver's own error is
 * estimated for every shot: with friction that creeps half as much the ball must end at the same place.
 */
import { PATTERNS, type Pattern } from '../../src/charts/index.ts';
import {
  type Condition,
  divisions,
  type Launch,
  mirrorAim,
  solveLine,
  TABLES,
  type Table,
} from '../../src/table/index.ts';
import type { Ended } from './cloth.ts';
import { dice } from './dice.ts';
import type { Accuracy } from './impact.ts';
import { apart, endByBruteForce, endByOde, endOfOurs, type Shot } from './shot.ts';

type Dice = () => number;

const between = (roll: Dice, least: number, most: number) => least + (most - least) * roll();
const oneOf = <T>(roll: Dice, all: readonly T[]): T => all[Math.floor(roll() * all.length)] as T;

/** Any condition of a chart (src/charts/document/condition-schema.ts), or one inside published ranges. */
function conditionOf(roll: Dice, published: boolean): Condition {
  type Range = readonly [number, number];
  const [e, nose, slide, rest, decay]: readonly [Range, Range, Range, Range, Range] = published
    ? [
        [0.6, 0.98],
        [0.1, 0.2],
        [0.15, 0.4],
        [0.005, 0.015],
        [5, 15],
      ]
    : ([
        [0.5, 1],
        [0, 0.25],
        [0.05, 0.5],
        [0.001, 0.05],
        [0, 100],
      ] as const);
  return {
    restitution: between(roll, ...e),
    noseFriction: between(roll, ...nose),
    slideFriction: between(roll, ...slide),
    rollFriction: between(roll, ...rest),
    spinDecay: between(roll, ...decay),
    speeds: { soft: 1, medium: 2, firm: 3 },
  };
}

/** m/s: the slowest and the fastest named speeds of Alciatore's physics FAQ. */
const SLOW = 1.3;
const FAST = 5.4;

function launchOf(roll: Dice, route: Pattern): Launch {
  const speed = between(roll, SLOW, FAST);
  const kind = Math.floor(roll() * 6);
  const offset = between(roll, -0.5, 0.5);
  if (kind === 0) return { speed, follow: offset };
  if (kind === 1) return { speed, side: offset };
  if (kind === 2) return { speed, running: offset, follow: between(roll, -0.3, 0.3) };
  if (kind === 3) {
    return { ...route.stroke, speed, along: between(roll, 0, 0.9) };
  }
  return { ...route.stroke, speed };
}

/** A shot at the solved number or within 0.3 of it, or near the mirror's if there is none. */
function shotOf(roll: Dice, n: number): Shot {
  const route: Pattern = oneOf(roll, PATTERNS);
  const table: Table = oneOf(roll, Object.values(TABLES));
  const setting = { table, condition: conditionOf(roll, n % 2 === 0) };
  const start = between(roll, route.starts[0], route.starts[1]);
  const launch = launchOf(roll, route);
  const { aim } = solveLine(setting, route, start, launch);
  const off = roll() < 0.5 ? 0 : between(roll, -0.3, 0.3);
  const through = (aim ?? mirrorAim(table, route, start)) + off;
  const onRail = Math.min(divisions(route.aim.rail), Math.max(0, through));
  return { setting, route, start, launch, aim: onRail };
}

/** The grid of the tests and of the table in docs/numbers.md. */
export const GRID = { count: 2800, seed: 20261125 } as const;

export function randomShots(count: number, seed: number): readonly Shot[] {
  const roll = dice(seed);
  return Array.from({ length: count }, (_, n) => shotOf(roll, n));
}

/**
 * Three successively finer settings of the solver must agree on a shot to this, diamonds; otherwise it
 * is refined. Two may agree by chance: of 20,000 shots, one was then still off by 0.0007.
 */
const AGREED = 0.0002;
/** Each setting has half the creep and a tenth of the tolerance of the previous one. */
const SETTINGS: readonly Accuracy[] = [0, 1, 2, 3, 4, 5, 6].map((n) => ({
  creep: 2e-4 / 2 ** n,
  tolerance: Math.max(1e-10, 1e-8 / 10 ** n),
}));

export interface Judged {
  readonly ended: Ended;
  readonly by: 'odex' | 'brute force';
}

/** Where a shot ends by the general solver, or by brute force if its settings do not agree. */
export function judge(shot: Shot): Judged {
  const found: Ended[] = [];
  for (const accuracy of SETTINGS) {
    const fine = endByOde(shot, accuracy);
    found.push(fine);
    const [coarsest, coarse] = found.slice(-3);
    if (found.length < 3 || !coarsest || !coarse) continue;
    if (apart(shot, coarsest, coarse) <= AGREED && apart(shot, coarse, fine) <= AGREED) {
      return { ended: extrapolated(coarse, fine), by: 'odex' };
    }
  }
  return { ended: endByBruteForce(shot), by: 'brute force' };
}

/** Extrapolates to no creep: its error is proportional to it. */
function extrapolated(coarse: Ended, fine: Ended): Ended {
  if (coarse.crossed !== fine.crossed) return fine;
  const x = 2 * fine.ball.x - coarse.ball.x;
  const y = 2 * fine.ball.y - coarse.ball.y;
  return { ...fine, ball: { ...fine.ball, x, y } };
}

export interface Comparison {
  readonly shot: Shot;
  readonly arrived: boolean;
  readonly by: Judged['by'];
  /** Diamonds between our end of the shot and the judge's. */
  readonly gap: number;
}

/** Our ends of random shots against the judge's. */
export function compareOnGrid(count: number, seed: number): readonly Comparison[] {
  return randomShots(count, seed).map((shot) => {
    const ours = endOfOurs(shot);
    const { ended, by } = judge(shot);
    return { shot, arrived: ours.crossed, by, gap: apart(shot, ours, ended) };
  });
}
