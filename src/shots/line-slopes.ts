/** Computes how a chart's numbers would move on a table in another condition. */

import { type Chart, type Line, patternOf, shiftAt, toNumber } from '../charts/index.ts';
import { aimNamed, diamondLength, SPEEDS, type Speed, targetLine } from '../table/index.ts';
import { slopesOf } from './condition-knobs.ts';
import { besideMark } from './mark.ts';
import { AIM_ERROR, ARRIVAL_ERROR, mouthOf } from './reading.ts';
import type { PlannedShot } from './shot.ts';
import { dot, type Matrix, times, type Vector } from './small-matrix.ts';

export interface LineSlope {
  readonly line: Line;
  readonly speed: Speed;
  /** How far the number moves per spread of each knob, in diamonds of aim. */
  readonly slopes: Vector;
  /** The standard deviation of a number that is read from one test shot, in diamonds. */
  readonly noise: number;
}

/** The step to either side for a difference quotient, in diamonds. */
const BESIDE = 0.05;

/** Returns the slopes of all lines with a ball that reaches its pocket on the chart's own table. */
export function lineSlopes(chart: Chart, speeds: readonly Speed[] = SPEEDS): readonly LineSlope[] {
  return chart.lines.flatMap((line) =>
    speeds.flatMap((speed) => slopeOf(chart, line, speed) ?? []),
  );
}

function slopeOf(chart: Chart, line: Line, speed: Speed): LineSlope | null {
  const { setting, naming } = chart;
  const { table } = setting;
  const route = patternOf(line.pattern);
  const start = toNumber(line.start);
  const named = aimNamed(table, route, start, line.numbers[speed].exact, naming);
  const aim = named - shiftAt(chart, line, speed);
  const played: PlannedShot = { route, start, speed, aim };
  const mark = targetLine(table, route.target);
  const beside = (by: number) => besideMark(setting, { ...played, aim: aim + by }, mark);
  const low = beside(-BESIDE);
  const high = beside(BESIDE);
  const moves = slopesOf(setting, [0, 0, 0], played, mark);
  if (low === null || high === null || low === high || !moves) return null;
  // `perAim` is in meters at the mouth per diamond of aim. The aim has to make up for what a knob
  // changes.
  const perAim = (high - low) / (2 * BESIDE);
  const eye = (ARRIVAL_ERROR * diamondLength(table, 'left')) / Math.abs(perAim);
  // The error of a made shot is uniform over the window. That window is as wide as the mouth minus
  // the ball.
  const open = (mouthOf(table, route.target) - 2 * table.ballRadius) / Math.abs(perAim);
  return {
    line,
    speed,
    slopes: moves.map((move) => -move / perAim),
    noise: Math.hypot(AIM_ERROR, eye, open / Math.sqrt(12)),
  };
}

/** Returns the standard error of a line's number, in diamonds, from the covariance of the knobs. */
export function numberError({ slopes }: LineSlope, covariance: Matrix): number {
  return Math.sqrt(dot(slopes, times(covariance, slopes)));
}
