/**
 * Reads what a test shot tells about a number, in diamonds of aim. On the chart's table, some
 * number would have sent the ball where it went. The reading is how far the number aimed at is from
 * that number. That is the correction that this one shot asks for.
 */

import { type Chart, shiftAt, toDecimal } from '../charts/index.ts';
import {
  isSidePocket,
  makeWindowOf,
  type Setting,
  solveLine,
  type Target,
  targetLine,
} from '../table/index.ts';
import { acrossPerDiamond, chord, type Mark, markOf, numberThrough } from './mark.ts';
import type { Observation } from './noise.ts';
import { launchAt, type PlannedShot, plannedShot, type TableShot } from './shot.ts';

export interface Reading {
  readonly shot: TableShot;
  /**
   * The shot as the model plays it. The model is set to agree with the chart's number
   * (set-to-measured.ts).
   */
  readonly played: PlannedShot;
  /** The correction that the shot asks for, in diamonds of aim. */
  readonly seen: Observation;
  /** The number that would have sent the ball where it arrived, on the chart's table. */
  readonly number: number;
  readonly mark: Mark;
  /**
   * How far the path moves across the mark per diamond of aim, in meters. It is the slope of the
   * chord from `number` to the number aimed at.
   */
  readonly slope: number;
  /** The distance from `number` to the middle of what was seen, in diamonds of aim. */
  readonly shift: number;
}

/**
 * How coarsely people name numbers and see arrivals: an aim to 0.1 and an arrival to a quarter of a
 * diamond. Each error is uniform over its step, so its standard deviation is step/√12. Common
 * practice, no source. The scale of the errors is estimated in addition and never makes them
 * smaller.
 */
export const AIM_ERROR = 0.1 / Math.sqrt(12);
export const ARRIVAL_ERROR = 0.25 / Math.sqrt(12);

/** Reads a shot against a chart. The model is set to agree with the chart's measured numbers. */
export function readOn(chart: Chart, shot: TableShot): Reading | null {
  const { pattern, speed } = shot;
  const shift = shiftAt(chart, { pattern, start: toDecimal(shot.start) }, speed);
  return readShot(chart.setting, shot, shift);
}

/**
 * Reads a shot.
 * @param shift how much to subtract from the aim before playing it, if the chart's number is not
 *   the model's
 * @returns null if the ball does not arrive there on the chart's table; the shot then tells nothing
 */
function readShot(setting: Setting, shot: TableShot, shift = 0): Reading | null {
  const planned = plannedShot(shot);
  const played = { ...planned, aim: planned.aim - shift };
  return shot.miss === null
    ? readMade(setting, shot, played)
    : readMiss(setting, shot, played, shot.miss);
}

/** Reads a missed shot. Its error combines the errors of the eye and of the aim. */
function readMiss(
  setting: Setting,
  shot: TableShot,
  played: PlannedShot,
  miss: number,
): Reading | null {
  const mark = markOf(setting, played, miss);
  const number = mark && numberThrough(setting, played, mark);
  if (mark === null || number === null) return null;
  const slope = chord(setting, played, mark, number);
  if (slope === null) return null;
  const perDiamond = acrossPerDiamond(setting, played, mark, number);
  const eye = (ARRIVAL_ERROR * perDiamond) / Math.abs(slope);
  const noise = Math.hypot(AIM_ERROR, eye);
  const seen = { middle: played.aim - number, half: 0, noise };
  return { shot, played, seen, number, mark, slope, shift: 0 };
}

/**
 * Reads a made shot. It tells that the shot's aim was in the make window of tonight's table. The
 * width of that window is taken from the chart's table. If nothing drops in the model, or nothing
 * near the number, the width is that of the mouth. Nobody misreads a made shot, so its error is
 * only that of the aim.
 */
function readMade(setting: Setting, shot: TableShot, played: PlannedShot): Reading | null {
  const { route, start } = played;
  const launch = launchAt(setting, played);
  const number = solveLine(setting, route, start, launch).aim;
  if (number === null) return null;
  const mark = targetLine(setting.table, route.target);
  const slope = chord(setting, played, mark, number);
  if (slope === null) return null;
  const halfMouth = mouthOf(setting.table, route.target) / 2 / Math.abs(slope);
  const window = makeWindowOf(setting, route, start, launch, number) ?? {
    from: number - halfMouth,
    to: number + halfMouth,
  };
  const middle = (window.from + window.to) / 2;
  const half = (window.to - window.from) / 2;
  const seen = { middle: played.aim - middle, half, noise: AIM_ERROR };
  return { shot, played, seen, number, mark, slope, shift: middle - number };
}

/** Returns the width of a target's mouth from tip to tip, in meters. */
export function mouthOf({ cornerMouth, sideMouth }: Setting['table'], target: Target): number {
  return target.kind === 'pocket' && isSidePocket(target.pocket) ? sideMouth : cornerMouth;
}
