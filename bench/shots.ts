/**
 * Shots played per second: ours against the registry's ODE solver (odex) on the same right-hand
 * sides, at the accuracy we state for a number: 0.001 diamond at the target.
 */

import { PATTERNS } from '../src/charts/index.ts';
import { CLUB_CLOTH, diamondLength, mirrorAim, type Setting, TABLES } from '../src/table/index.ts';
import type { Accuracy } from '../tests/oracle/ode.ts';
import {
  crossingByBruteForce,
  crossingByOde,
  crossingOfOurs,
  type OneCushionShot,
} from '../tests/oracle/shot.ts';
import { compare, type Rate } from './measure.ts';

const setting: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };
/** Every third line of the catalogue at its mirror number, three speeds. */
const shots: readonly OneCushionShot[] = PATTERNS.flatMap((route) => {
  const all: OneCushionShot[] = [];
  for (let start = route.starts[0] + 0.5; start <= route.starts[1]; start += 1.5) {
    const aim = mirrorAim(setting.table, route, start);
    for (const speed of Object.values(CLUB_CLOTH.speeds)) all.push({ route, start, aim, speed });
  }
  return all;
});

export interface ShotBench {
  readonly rates: readonly Rate[];
  readonly accuracy: Accuracy;
  /** Largest distance from the reference at the target, diamonds. */
  readonly oursOff: number;
  readonly odexOff: number;
  readonly shots: number;
}

export function benchShots(): ShotBench {
  const reference = shots.map((shot) => crossingByBruteForce(setting, shot));
  const ours = shots.map(playOurs);
  const accuracy = loosest(reference);
  const odex = shots.map((shot) => playOdex(shot, accuracy));
  const rates = compare([
    {
      name: 'ours',
      run: () => {
        for (let n = 0; n < 20; n++) for (const shot of shots) playOurs(shot);
        return 20 * shots.length;
      },
    },
    {
      name: 'odex',
      run: () => {
        for (const shot of shots) playOdex(shot, accuracy);
        return shots.length;
      },
    },
  ]);
  return {
    rates,
    accuracy,
    oursOff: worst(ours, reference),
    odexOff: worst(odex, reference),
    shots: shots.length,
  };
}

/** The loosest settings of the general solver that keep every shot within 0.001 diamond. */
function loosest(reference: readonly number[]): Accuracy {
  for (const tolerance of [1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9]) {
    for (const creep of [1e-3, 3e-4, 1e-4, 3e-5, 1e-5]) {
      const accuracy = { tolerance, creep };
      const close = shots.every(
        (shot, n) => worst([playOdex(shot, accuracy)], [reference[n] ?? Number.NaN]) <= 0.001,
      );
      if (close) return accuracy;
    }
  }
  throw new Error('the general solver did not reach 0.001 diamond');
}

function worst(played: readonly number[], reference: readonly number[]): number {
  const unit = diamondLength(setting.table, 'left');
  return Math.max(
    ...played.map((value, n) => Math.abs(value - (reference[n] ?? Number.NaN)) / unit),
  );
}

function playOurs(shot: OneCushionShot): number {
  return crossingOfOurs(setting, shot);
}

function playOdex(shot: OneCushionShot, accuracy: Accuracy): number {
  return crossingByOde(setting, shot, accuracy);
}
