/**
 * Shots played per second: ours against a general ODE solver (odex) on the same equations, once at the
 * accuracy we state for a number and once at the accuracy we reach.
 */

import type { Ended } from '../tests/oracle/cloth.ts';
import type { Accuracy } from '../tests/oracle/impact.ts';
import { apart, endByBruteForce, endByOde, endOfOurs, type Shot } from '../tests/oracle/shot.ts';
import { shots } from './catalogue.ts';
import { compare, type Rate } from './measure.ts';

/** The accuracy that docs/numbers.md states for a number, diamonds. */
const STATED = 0.001;
/** Settings of the solver; each is also tried with its creep extrapolated to none. */
const TOLERANCES = [1e-4, 1e-5, 1e-6, 1e-7, 1e-8, 1e-9];
const CREEPS = [3e-3, 1e-3, 3e-4, 1e-4, 3e-5, 1e-5, 3e-6];
const REFERENCE: Way = { tolerance: 1e-10, creep: 4e-6, extrapolate: true };
const OURS_ROUNDS = 20;

/** How the general solver plays a shot. */
export interface Way extends Accuracy {
  /** Played again at half the creep and extrapolated to none. */
  readonly extrapolate: boolean;
}

export interface ShotBench {
  readonly shots: number;
  /** Ours, odex within the stated accuracy, odex as near as ours: each at its fastest such settings. */
  readonly rates: readonly Rate[];
  /** Largest distance from the reference at the target, diamonds, in this order. */
  readonly off: readonly number[];
  readonly stated: Way;
  readonly asNear: Way;
  /** The reference's own largest distance from brute force over a few shots, diamonds. */
  readonly referenceOff: number;
}

export function benchShots(): ShotBench {
  const reference = shots.map((shot) => endBy(shot, REFERENCE));
  const ours = worst(endOfOurs, reference);
  const ways = timedWays(reference);
  const stated = fastest(ways, STATED);
  const asNear = fastest(ways, ours);
  return {
    shots: shots.length,
    rates: compare([
      { name: 'ours', run: () => playAll(endOfOurs, OURS_ROUNDS) },
      { name: 'odex within 0.001', run: () => playAll((shot) => endBy(shot, stated.way), 1) },
      { name: 'odex as near as ours', run: () => playAll((shot) => endBy(shot, asNear.way), 1) },
    ]),
    off: [ours, stated.off, asNear.off],
    stated: stated.way,
    asNear: asNear.way,
    referenceOff: Math.max(
      ...reference.map((end, n) => {
        const shot = shots[n] as Shot;
        return n % 13 === 0 ? apart(shot, end, endByBruteForce(shot, 1e-5)) : 0;
      }),
    ),
  };
}

function playAll(play: (shot: Shot) => Ended, rounds: number): number {
  for (let round = 0; round < rounds; round++) for (const shot of shots) play(shot);
  return rounds * shots.length;
}

export function endBy(shot: Shot, { tolerance, creep, extrapolate }: Way): Ended {
  const coarse = endByOde(shot, { tolerance, creep });
  if (!extrapolate) return coarse;
  const fine = endByOde(shot, { tolerance, creep: creep / 2 });
  const x = 2 * fine.ball.x - coarse.ball.x;
  const y = 2 * fine.ball.y - coarse.ball.y;
  return { ...fine, ball: { ...fine.ball, x, y } };
}

function worst(play: (shot: Shot) => Ended, reference: readonly Ended[]): number {
  return Math.max(...shots.map((shot, n) => apart(shot, play(shot), reference[n] as Ended)));
}

interface Timed {
  readonly way: Way;
  readonly off: number;
  readonly ms: number;
}

/** All settings, each played once over all shots. */
function timedWays(reference: readonly Ended[]): readonly Timed[] {
  const ways = TOLERANCES.flatMap((tolerance) =>
    CREEPS.flatMap((creep) =>
      [false, true].map((extrapolate) => ({ tolerance, creep, extrapolate })),
    ),
  );
  return ways.map((way) => {
    const start = performance.now();
    const off = worst((shot) => endBy(shot, way), reference);
    return { way, off, ms: performance.now() - start };
  });
}

function fastest(ways: readonly Timed[], bound: number): Timed {
  const close = ways.filter(({ off }) => off <= bound).sort((a, b) => a.ms - b.ms);
  const [best] = close;
  if (!best) throw new Error(`the general solver did not come within ${bound} diamond`);
  return best;
}
