/**
 * What a test shot tells about a number, in diamonds of aim: how far the number aimed at is from the
 * one with which the chart's table would have sent the ball where it went. That is the correction that
 * the shot alone asks for.
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
  /** As the model plays it, set to agree with the chart's number (set-to-measured.ts). */
  readonly played: PlannedShot;
  /** The correction the shot asks for, diamonds of aim. */
  readonly seen: Observation;
  /** The number with which the chart's table would have sent the ball there. */
  readonly number: number;
  readonly mark: Mark;
  /** Meters across the mark per diamond of aim: the chord from that number to the one aimed at. */
  readonly slope: number;
  /** Diamonds of aim from that number to the middle of what was seen. */
  readonly shift: number;
}

/**
 * How coarsely people name numbers and see arrivals: an aim to 0.1 and an arrival to a quarter of a
 * diamond. Each error is uniform over its step, so its standard deviation is step/√12. Common
 * practice, no source; the scale of the errors is estimated on top and is never below this.
 */
export const AIM_ERROR = 0.1 / Math.sqrt(12);
export const ARRIVAL_ERROR = 0.25 / Math.sqrt(12);

/** Reads a shot against a chart, set to agree with the chart's measured numbers. */
export function readOn(chart: Chart, shot: TableShot): Reading | null {
  const { pattern, speed } = shot;
  const shift = shiftAt(chart, { pattern, start: toDecimal(shot.start) }, speed);
  return readShot(chart.setting, shot, shift);
}

/**
 * @param shift how much to subtract from the aim before playing it, if the chart's number is not the
 *   model's
 * @returns null if the ball does not arrive there on the chart's table: the shot then tells nothing
 */
function readShot(setting: Setting, shot: TableShot, shift = 0): Reading | null {
  const planned = plannedShot(shot);
  const played = { ...planned, aim: planned.aim - shift };
  return shot.miss === null
    ? readMade(setting, shot, played)
    : readMiss(setting, shot, played, shot.miss);
}

/** The error of an arrival is the eye's and the aim's. */
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
 * A made shot tells that its aim was in the make window of tonight's table. The window's width is the
 * chart's; where nothing drops in the model, or nothing near the number, it is the mouth's. Nobody
 * misreads a made shot, so its error is the aim's alone.
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

/** From tip to tip, meters. */
export function mouthOf({ cornerMouth, sideMouth }: Setting['table'], target: Target): number {
  return target.kind === 'pocket' && isSidePocket(target.pocket) ? sideMouth : cornerMouth;
}
