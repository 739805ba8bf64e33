/**
 * Shots played per second: ours against the registry's ODE solver (odex) on the same equations, at
 * the accuracy we state for a number (0.001 diamond at the target), and at the accuracy we have.
 */

import { PATTERNS } from '../src/charts/index.ts';
import { tally } from '../src/table/impulse-step.ts';
import { CLUB_CLOTH, type Setting, SPEEDS, solveStarts, TABLES } from '../src/table/index.ts';
import type { Ended } from '../tests/oracle/cloth.ts';
import type { Accuracy } from '../tests/oracle/impact.ts';
import { apart, endByBruteForce, endByOde, endOfOurs, type Shot } from '../tests/oracle/shot.ts';
import { compare, type Rate } from './measure.ts';

const setting: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };

/** Every third line of the one-cushion patterns at its number, three speeds. */
const shots: readonly Shot[] = PATTERNS.filter((route) => route.cushions.length === 1).flatMap(
  (route) => {
    const starts: number[] = [];
    for (let start = route.starts[0] + 0.5; start <= route.starts[1]; start += 1.5)
      starts.push(start);
    return solveStarts(setting, route, starts).flatMap((line, n) =>
      SPEEDS.flatMap((speed) => {
        const { aim } = line[speed];
        const launch = { speed: CLUB_CLOTH.speeds[speed] };
        return aim === null ? [] : [{ setting, route, start: starts[n] as number, launch, aim }];
      }),
    );
  },
);

export interface ShotBench {
  readonly shots: number;
  /** Ours, odex within 0.001 diamond, odex as near as ours is. */
  readonly rates: readonly [Rate, Rate, Rate];
  readonly stated: Accuracy;
  readonly own: Accuracy;
  /** Largest distance from brute force at the target, diamonds: ours, odex, finer odex. */
  readonly off: readonly [number, number, number];
}

export function benchShots(): ShotBench {
  const reference = shots.map((shot) => endByBruteForce(shot));
  const oursOff = worst(endOfOurs, reference);
  const stated = loosest(reference, 0.001);
  // The reference itself is good to about 1e-5.
  const own = loosest(reference, Math.max(oursOff, 2e-5));
  const by = (accuracy: Accuracy) => (shot: Shot) => endByOde(shot, accuracy);
  const [ours, loose, fine] = compare([
    { name: 'ours', run: () => playAll(endOfOurs, 20) },
    { name: 'odex', run: () => playAll(by(stated), 1) },
    { name: 'odex, as near', run: () => playAll(by(own), 1) },
  ]) as [Rate, Rate, Rate];
  return {
    shots: shots.length,
    rates: [ours, loose, fine],
    stated,
    own,
    off: [oursOff, worst(by(stated), reference), worst(by(own), reference)],
  };
}

/** Integration steps of an impact, mean over the shots. */
export function stepsPerImpact(): number {
  const before = tally.steps;
  playAll(endOfOurs, 1);
  return (tally.steps - before) / shots.length;
}

function playAll(play: (shot: Shot) => Ended, times: number): number {
  for (let n = 0; n < times; n++) for (const shot of shots) play(shot);
  return times * shots.length;
}

/** The loosest settings of the general solver that keep every shot within a distance, diamonds. */
function loosest(reference: readonly Ended[], within: number): Accuracy {
  for (const tolerance of [1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9, 1e-10]) {
    for (const creep of [1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6, 1e-6]) {
      const accuracy = { tolerance, creep };
      if (worst((shot) => endByOde(shot, accuracy), reference, within) <= within) return accuracy;
    }
  }
  throw new Error(`the general solver did not come within ${within} of a diamond`);
}

/** Gives up as soon as one is further off than is of interest. */
function worst(
  play: (shot: Shot) => Ended,
  reference: readonly Ended[],
  enough = Number.POSITIVE_INFINITY,
): number {
  let most = 0;
  for (const [n, shot] of shots.entries()) {
    most = Math.max(most, apart(shot, play(shot), reference[n] as Ended));
    if (most > enough) return most;
  }
  return most;
}
