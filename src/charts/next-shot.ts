/** Which line to shoot next, and how many more shots would help. */

import { SPEEDS, type Speed } from '../table/index.ts';
import type { Chart, Line } from './chart.ts';
import { slopesIn } from './condition-hill.ts';
import { KNOBS } from './condition-knobs.ts';
import type { Tonight } from './correction.ts';
import { toNumber } from './decimal.ts';
import { type LineSlope, lineSlopes, numberError } from './line-slopes.ts';
import type { TableShot } from './shot-arrival.ts';
import { scaleOf } from './shot-noise.ts';
import { readShot } from './shot-reading.ts';
import { identity, inverse, type Matrix, plusSquare, type Vector } from './small-matrix.ts';

export interface NextShot {
  readonly line: Line;
  readonly speed: Speed;
  /** The standard error with which its number is known before it is shot, diamonds. */
  readonly unsure: number;
  /** Part of a spread of knowledge that the shot is expected to take: the determinant's factor − 1. */
  readonly gain: number;
}

/** Part of the best gain at which a line that has been shot less is as good. */
const NEARLY = 0.9;
const NOWHERE: Vector = KNOBS.map(() => 0);
/** The standard error of tonight's offset at which it is known: what is said is rounded to. */
export const KNOWN = 0.05;

/**
 * The line that tells most: g C gᵀ/σ² is the factor, less 1, by which one more shot divides the
 * determinant of the covariance C of the condition (D-optimal design; Fedorov 1972, from memory).
 * Only lines are asked whose ball arrives. Of those nearly as good, one that was shot least.
 * @returns null if the chart has no line that can be played
 */
export function nextShot(chart: Chart, shots: readonly TableShot[]): NextShot | null {
  return nextOf(lineSlopes(chart, SPEEDS), chart, shots);
}

/** The same where the lines' slopes are at hand: they do not change with the shots. */
export function nextOf(
  slopes: readonly LineSlope[],
  chart: Chart,
  shots: readonly TableShot[],
): NextShot | null {
  const covariance = covarianceAfter(chart, shots);
  const all = slopes.map((slope) => {
    const unsure = numberError(slope, covariance);
    const { line, speed, noise } = slope;
    return { line, speed, unsure, gain: (unsure / noise) ** 2 };
  });
  const most = Math.max(...all.map(({ gain }) => gain));
  const before = ({ line }: NextShot) =>
    shots.filter(({ pattern, start }) => pattern === line.pattern && start === toNumber(line.start))
      .length;
  const [best] = all
    .filter(({ gain }) => gain >= NEARLY * most)
    .sort((a, b) => before(a) - before(b) || b.gain - a.gain);
  return best ?? null;
}

/**
 * What is not known of the condition after the shots, as seen from the chart's. It is what such shots
 * are expected to tell (a made one with the even spread of its window), not how these happened to fall.
 */
function covarianceAfter({ setting }: Chart, shots: readonly TableShot[]): Matrix {
  const readings = shots.flatMap((shot) => readShot(setting, shot) ?? []);
  const seen = readings.map((reading) => reading.seen);
  const middles = seen.map(({ middle }) => middle).sort((a, b) => a - b);
  const middle = middles[Math.floor(middles.length / 2)] ?? 0;
  // Scatter about the shots' own middle: what they have in common is the table's, not an error.
  const expected = seen.map(() => middle);
  const scale = scaleOf(seen, expected, 1);
  const told = readings.reduce((matrix, reading) => {
    const slopes = slopesIn(setting, reading, NOWHERE);
    const { noise, half } = reading.seen;
    const variance = (scale * noise) ** 2 + half ** 2 / 3;
    return slopes ? plusSquare(matrix, slopes, 1 / variance) : matrix;
  }, identity(KNOBS.length));
  return inverse(told) ?? identity(KNOBS.length);
}

/**
 * How many more shots like those so far until what would be said is known to 0.05 diamond: the
 * standard error falls as 1/√n, so n · (se/0.05)² are needed in all. 0 if it is known; null if there
 * is nothing to tell by.
 */
export function shotsToGo({ amounts, shots }: Pick<Tonight, 'amounts' | 'shots'>): number | null {
  if (amounts.length === 0 || shots.length < 2) return null;
  const worst = Math.max(...amounts.map(({ standardError }) => standardError));
  return Math.max(0, Math.ceil(shots.length * ((worst / KNOWN) ** 2 - 1)));
}
