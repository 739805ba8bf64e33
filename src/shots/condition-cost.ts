/**
 * Computes how well a table agrees with test shots, as a cost that depends on the knobs of its
 * condition.
 */

import type { Setting } from '../table/index.ts';
import { KNOBS, slopesOf, turnedTable, withinLimits } from './condition-knobs.ts';
import type { Cost, Derivatives } from './descent.ts';
import { besideMark } from './mark.ts';
import { disagreement, information, type Observation, pull, stepCurvature } from './noise.ts';
import type { Reading } from './reading.ts';
import { dot, identity, inverse, type Matrix, plusSquare, type Vector } from './small-matrix.ts';

/**
 * Returns the knobs' covariance given the shots, with the chart's condition as the prior; null if
 * it cannot be computed.
 */
export function covarianceAt(
  setting: Setting,
  readings: readonly Reading[],
  seen: readonly Observation[],
  at: Vector,
  scale: number,
): Matrix | null {
  const errors = errorsAt(setting, readings, at);
  if (!errors) return null;
  const sum = readings.reduce((matrix, reading, n) => {
    const slopes = slopesIn(setting, reading, at);
    return slopes
      ? plusSquare(matrix, slopes, information(seen[n] as Observation, errors[n] ?? 0, scale))
      : matrix;
  }, identity(KNOBS.length));
  return inverse(sum);
}

/**
 * Returns how far each shot's number is from the number on the table with these knobs, in diamonds
 * of aim; null if a ball does not arrive.
 */
export function errorsAt(
  setting: Setting,
  readings: readonly Reading[],
  at: Vector,
): Vector | null {
  const table = turnedTable(setting, at);
  const errors: number[] = [];
  for (const { played, mark, slope, shift } of readings) {
    const beside = besideMark(table, played, mark);
    if (beside === null) return null;
    errors.push(beside / slope - shift);
  }
  return errors;
}

/**
 * Returns how a shot's error moves with each knob, in diamonds of aim per spread; null if the ball
 * does not arrive.
 */
export function slopesIn(
  setting: Setting,
  { played, mark, slope }: Reading,
  at: Vector,
): Vector | null {
  const slopes = slopesOf(setting, at, played, mark);
  return slopes?.map((one) => one / slope) ?? null;
}

export function costOf(
  setting: Setting,
  readings: readonly Reading[],
  seen: readonly Observation[],
  scale: number,
): Cost {
  return {
    value: (at) => {
      const errors = errorsAt(setting, readings, at);
      if (!errors) return null;
      const prior = dot(at, at) / 2;
      return errors.reduce(
        (sum, error, n) => sum + disagreement(seen[n] as Observation, error, scale),
        prior,
      );
    },
    derivatives: (at) => derivativesAt(setting, readings, seen, scale, at),
    within: (at) => withinLimits(setting.condition, at),
  };
}

function derivativesAt(
  setting: Setting,
  readings: readonly Reading[],
  seen: readonly Observation[],
  scale: number,
  at: Vector,
): Derivatives {
  const errors = errorsAt(setting, readings, at) ?? [];
  let curvature = identity(KNOBS.length);
  let gradient: Vector = at;
  for (const [n, reading] of readings.entries()) {
    const slopes = slopesIn(setting, reading, at);
    const one = seen[n] as Observation;
    const error = errors[n] ?? 0;
    if (!slopes) continue;
    const force = pull(one, error, scale);
    gradient = gradient.map((value, k) => value - force * (slopes[k] ?? 0));
    curvature = plusSquare(curvature, slopes, stepCurvature(one, error, scale));
  }
  return { gradient, curvature };
}
