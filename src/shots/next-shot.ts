/** Chooses which line to shoot next, and tells how many more shots would help. */

import {
  type Chart,
  type Line,
  type PatternId,
  patternOf,
  shiftAt,
  toNumber,
} from '../charts/index.ts';
import { aimNamed, type Setting, SPEEDS, type Speed } from '../table/index.ts';
import { missOf } from './arrival.ts';
import { slopesIn } from './condition-cost.ts';
import { KNOBS } from './condition-knobs.ts';
import type { Tonight } from './correction.ts';
import { type LineSlope, lineSlopes, numberError } from './line-slopes.ts';
import { scaleOf } from './noise.ts';
import { readOn } from './reading.ts';
import type { LineSpeed, TableShot } from './shot.ts';
import { identity, inverse, type Matrix, plusSquare, type Vector } from './small-matrix.ts';

export interface NextShot {
  readonly line: Line;
  readonly speed: Speed;
  /** The standard error of the line's number before the shot, in diamonds. */
  readonly standardError: number;
  /**
   * How much the shot is expected to help: the factor by which it divides the determinant of the
   * covariance, minus 1.
   */
  readonly gain: number;
}

/**
 * Of the lines with at least this part of the best gain, the one with the fewest shots is chosen.
 */
const NEARLY = 0.9;
/**
 * If a line with one cushion has at least this part of the best gain, only such lines are
 * considered.
 */
const FAIR = 0.25;
/** After this many shots at a pattern, a pattern without shots comes first. */
const OFTEN = 3;
/**
 * People can see an arrival up to this far from the pocket, in diamonds. Common practice, no
 * source.
 */
const FARTHEST_SEEN = 4;
const NO_CHANGE: Vector = KNOBS.map(() => 0);
/**
 * Tonight's offset counts as known once its standard error is this, in diamonds: corrections are
 * rounded to it.
 */
export const KNOWN = 0.05;

export interface Exclusions {
  /** Lines with a ball that did not arrive tonight. */
  readonly without?: readonly LineSpeed[];
  /**
   * The table as it is known so far. Lines with a ball that would not arrive on it are excluded.
   */
  readonly on?: Setting;
}

/**
 * Returns the most informative line. One more shot divides the determinant of the covariance C of
 * the condition by 1 + g C gᵀ/σ² (D-optimal design; Fedorov 1972, from memory). Only lines with a
 * ball that arrives count. Of the lines that are nearly as good, the one with the fewest shots is
 * chosen. No pattern gets more than three shots while another has none.
 * @returns null if no line of the chart can be played
 */
export function nextShot(
  chart: Chart,
  shots: readonly TableShot[],
  exclusions: Exclusions = {},
): NextShot | null {
  return nextOf(lineSlopes(chart, SPEEDS), chart, shots, exclusions);
}

/**
 * Does the same as `nextShot`, with slopes that were computed before: slopes do not depend on the
 * shots.
 */
export function nextOf(
  slopes: readonly LineSlope[],
  chart: Chart,
  shots: readonly TableShot[],
  exclusions: Exclusions = {},
): NextShot | null {
  const covariance = covarianceAfter(chart, shots);
  const all = slopes
    .filter((slope) => !isExcluded(chart, slope, exclusions))
    .map((slope) => candidateOf(slope, covariance));
  const candidates = oneCushionFirst(withoutOften(all, shots));
  const most = Math.max(...candidates.map(({ gain }) => gain));
  const before = ({ line }: NextShot) =>
    shots.filter(({ pattern, start }) => pattern === line.pattern && start === toNumber(line.start))
      .length;
  const [best] = candidates
    .filter(({ gain }) => gain >= NEARLY * most)
    .sort((a, b) => before(a) - before(b) || b.gain - a.gain);
  return best ?? null;
}

function candidateOf(slope: LineSlope, covariance: Matrix): NextShot {
  const { line, speed, noise } = slope;
  const standardError = numberError(slope, covariance);
  const gain = (standardError / (noise * scatterOf(line.pattern))) ** 2;
  return { line, speed, standardError, gain };
}

/**
 * Returns the factor for a player's error. The error is proportional to the number of cushions:
 * each cushion passes it on and adds its own. Common practice, no source.
 */
function scatterOf(pattern: PatternId): number {
  return patternOf(pattern).cushions.length;
}

/**
 * Returns only the lines with one cushion, which players use most, if one of them has a fair part
 * of the gain; otherwise all lines.
 */
function oneCushionFirst(all: readonly NextShot[]): readonly NextShot[] {
  const most = Math.max(...all.map(({ gain }) => gain));
  const one = all.filter(({ line }) => scatterOf(line.pattern) === 1);
  return one.some(({ gain }) => gain >= FAIR * most) ? one : all;
}

/** Leaves out patterns that were shot often, as long as another pattern has no shot. */
function withoutOften(all: readonly NextShot[], shots: readonly TableShot[]): readonly NextShot[] {
  const count = ({ line }: NextShot) =>
    shots.filter(({ pattern }) => pattern === line.pattern).length;
  return all.some((one) => count(one) === 0) ? all.filter((one) => count(one) < OFTEN) : all;
}

function isExcluded(chart: Chart, { line, speed }: LineSlope, { without, on }: Exclusions) {
  const { pattern } = line;
  const start = toNumber(line.start);
  const excluded = without?.some(
    (one) => one.pattern === pattern && one.start === start && one.speed === speed,
  );
  if (excluded || !on) return excluded ?? false;
  const route = patternOf(pattern);
  const printed = toNumber(line.numbers[speed].printed);
  const named = aimNamed(on.table, route, start, printed, chart.naming);
  const aim = named - shiftAt(chart, line, speed);
  const miss = missOf(on, { route, start, speed, aim });
  return miss === null || Math.abs(miss) > FARTHEST_SEEN;
}

/**
 * Returns the covariance of the condition after the shots, linearized at the chart's condition. It
 * uses what such shots are expected to tell, not where these shots happened to go. A made shot is
 * taken as uniform over its window.
 */
function covarianceAfter(chart: Chart, shots: readonly TableShot[]): Matrix {
  const { setting } = chart;
  const readings = shots.flatMap((shot) => readOn(chart, shot) ?? []);
  const seen = readings.map((reading) => reading.seen);
  const middles = seen.map(({ middle }) => middle).sort((a, b) => a - b);
  const middle = middles[Math.floor(middles.length / 2)] ?? 0;
  // The scatter is measured around the shots' own middle, because what they have in common comes
  // from the table.
  const expected = seen.map(() => middle);
  const scale = scaleOf(seen, expected, 1);
  const sum = readings.reduce((matrix, reading) => {
    const slopes = slopesIn(setting, reading, NO_CHANGE);
    const { noise, half } = reading.seen;
    const scatter = scatterOf(reading.shot.pattern);
    const variance = (scale * scatter * noise) ** 2 + half ** 2 / 3;
    return slopes ? plusSquare(matrix, slopes, 1 / variance) : matrix;
  }, identity(KNOBS.length));
  return inverse(sum) ?? identity(KNOBS.length);
}

/**
 * Returns how many more shots like those so far are needed until the correction is known to 0.05
 * diamond. The standard error falls as 1/√n, so n · (se/0.05)² shots are needed in all. 0 if it is
 * already known; null if there are too few shots to tell.
 */
export function shotsToGo({ amounts, shots }: Pick<Tonight, 'amounts' | 'shots'>): number | null {
  if (amounts.length === 0 || shots.length < 2) return null;
  const worst = Math.max(...amounts.map(({ standardError }) => standardError));
  return Math.max(0, Math.ceil(shots.length * ((worst / KNOWN) ** 2 - 1)));
}
