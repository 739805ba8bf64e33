/** Which line to shoot next, and how many more shots would help. */

import type { Chart, Line, PatternId } from '../charts/index.ts';
import { patternOf, shiftAt, toNumber } from '../charts/index.ts';
import { aimNamed, type Setting, SPEEDS, type Speed } from '../table/index.ts';
import { missOf, type TableShot } from './arrival.ts';
import { slopesIn } from './condition-hill.ts';
import { KNOBS } from './condition-knobs.ts';
import type { Tonight } from './correction.ts';
import { type LineSlope, lineSlopes, numberError } from './line-slopes.ts';
import { scaleOf } from './noise.ts';
import { readOn } from './reading.ts';
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
/** Part of the best gain at which a line of one cushion comes before one of more. */
const FAIR = 0.25;
/** Shots at a pattern after which one that was not shot comes first. */
const OFTEN = 3;
/** Diamonds beside the pocket to which people tell an arrival. Common practice, no source. */
const TOLD_TO = 4;
const NOWHERE: Vector = KNOBS.map(() => 0);
/** The standard error of tonight's offset at which it is known: what is said is rounded to. */
export const KNOWN = 0.05;

/** A line at a speed. */
export type LineSpeed = Pick<TableShot, 'pattern' | 'start' | 'speed'>;

export interface Unasked {
  /** Lines that did not get there tonight. */
  readonly without?: readonly LineSpeed[];
  /** The table as it is known by now: a line is not asked whose ball would not arrive on it. */
  readonly on?: Setting;
}

/**
 * The line that tells most: g C gᵀ/σ² is the factor, less 1, by which one more shot divides the
 * determinant of the covariance C of the condition (D-optimal design; Fedorov 1972, from memory).
 * Only lines are asked whose ball arrives. Of those nearly as good, one that was shot least; and no
 * pattern more than thrice while another was not shot at all.
 * @returns null if the chart has no line that can be played
 */
export function nextShot(
  chart: Chart,
  shots: readonly TableShot[],
  unasked: Unasked = {},
): NextShot | null {
  return nextOf(lineSlopes(chart, SPEEDS), chart, shots, unasked);
}

/** The same where the lines' slopes are at hand: they do not change with the shots. */
export function nextOf(
  slopes: readonly LineSlope[],
  chart: Chart,
  shots: readonly TableShot[],
  unasked: Unasked = {},
): NextShot | null {
  const covariance = covarianceAfter(chart, shots);
  const all = slopes
    .filter((slope) => !isUnasked(chart, slope, unasked))
    .map((slope) => {
      const unsure = numberError(slope, covariance);
      const { line, speed, noise } = slope;
      return { line, speed, unsure, gain: (unsure / (noise * scatterOf(line.pattern))) ** 2 };
    });
  const spread = wanted(spreadOut(all, shots));
  const most = Math.max(...spread.map(({ gain }) => gain));
  const before = ({ line }: NextShot) =>
    shots.filter(({ pattern, start }) => pattern === line.pattern && start === toNumber(line.start))
      .length;
  const [best] = spread
    .filter(({ gain }) => gain >= NEARLY * most)
    .sort((a, b) => before(a) - before(b) || b.gain - a.gain);
  return best ?? null;
}

/**
 * A player's errors grow with each cushion, which passes on what there was and adds its own: as many
 * times one cushion's as there are cushions. Common practice, no source.
 */
function scatterOf(pattern: PatternId): number {
  return patternOf(pattern).cushions.length;
}

/** Lines of one cushion, which players want corrected, as long as one of them tells a fair part. */
function wanted(all: readonly NextShot[]): readonly NextShot[] {
  const most = Math.max(...all.map(({ gain }) => gain));
  const one = all.filter(({ line }) => scatterOf(line.pattern) === 1);
  return one.some(({ gain }) => gain >= FAIR * most) ? one : all;
}

/** Without patterns that were shot often, as long as there is one that was not shot at all. */
function spreadOut(all: readonly NextShot[], shots: readonly TableShot[]): readonly NextShot[] {
  const count = ({ line }: NextShot) =>
    shots.filter(({ pattern }) => pattern === line.pattern).length;
  return all.some((one) => count(one) === 0) ? all.filter((one) => count(one) < OFTEN) : all;
}

function isUnasked(chart: Chart, { line, speed }: LineSlope, { without, on }: Unasked): boolean {
  const { pattern } = line;
  const start = toNumber(line.start);
  const out = without?.some(
    (one) => one.pattern === pattern && one.start === start && one.speed === speed,
  );
  if (out || !on) return out ?? false;
  const route = patternOf(pattern);
  const printed = toNumber(line.numbers[speed].printed);
  const named = aimNamed(on.table, route, start, printed, chart.naming);
  const aim = named - shiftAt(chart, line, speed);
  const miss = missOf(on, { route, start, speed, aim });
  return miss === null || Math.abs(miss) > TOLD_TO;
}

/**
 * What is not known of the condition after the shots, as seen from the chart's. It is what such shots
 * are expected to tell (a made one with the even spread of its window), not how these happened to fall.
 */
function covarianceAfter(chart: Chart, shots: readonly TableShot[]): Matrix {
  const { setting } = chart;
  const readings = shots.flatMap((shot) => readOn(chart, shot) ?? []);
  const seen = readings.map((reading) => reading.seen);
  const middles = seen.map(({ middle }) => middle).sort((a, b) => a - b);
  const middle = middles[Math.floor(middles.length / 2)] ?? 0;
  // Scatter about the shots' own middle: what they have in common is the table's, not an error.
  const expected = seen.map(() => middle);
  const scale = scaleOf(seen, expected, 1);
  const told = readings.reduce((matrix, reading) => {
    const slopes = slopesIn(setting, reading, NOWHERE);
    const { noise, half } = reading.seen;
    const scatter = scatterOf(reading.shot.pattern);
    const variance = (scale * scatter * noise) ** 2 + half ** 2 / 3;
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
