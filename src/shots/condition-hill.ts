/** How well a table agrees with test shots, and which way is better: in the knobs of its condition. */

import type { Setting } from '../table/index.ts';
import { KNOBS, slopesOf, turnedTable, withinLimits } from './condition-knobs.ts';
import type { Hill, Slope } from './descent.ts';
import { disagreement, pull, type Seen, steepness, telling } from './noise.ts';
import { besideMark, type Reading } from './reading.ts';
import { dot, identity, inverse, type Matrix, plusSquare, type Vector } from './small-matrix.ts';

/** The knobs' covariance that the shots leave, with the chart's condition as the guess before them. */
export function covarianceAt(
  setting: Setting,
  readings: readonly Reading[],
  seen: readonly Seen[],
  at: Vector,
  scale: number,
): Matrix | null {
  const errors = errorsAt(setting, readings, at);
  if (!errors) return null;
  const told = readings.reduce((matrix, reading, n) => {
    const slopes = slopesIn(setting, reading, at);
    return slopes
      ? plusSquare(matrix, slopes, telling(seen[n] as Seen, errors[n] ?? 0, scale))
      : matrix;
  }, identity(KNOBS.length));
  return inverse(told);
}

/** How far each shot's number is from where the table that is tried has it; null if one is lost. */
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

/** How a shot's error moves with each knob, diamonds of aim for a spread; null if it is lost. */
export function slopesIn(
  setting: Setting,
  { played, mark, slope }: Reading,
  at: Vector,
): Vector | null {
  const slopes = slopesOf(setting, at, played, mark);
  return slopes?.map((one) => one / slope) ?? null;
}

export function hillOf(
  setting: Setting,
  readings: readonly Reading[],
  seen: readonly Seen[],
  scale: number,
): Hill {
  return {
    cost: (at) => {
      const errors = errorsAt(setting, readings, at);
      if (!errors) return null;
      const guess = dot(at, at) / 2;
      return errors.reduce(
        (sum, error, n) => sum + disagreement(seen[n] as Seen, error, scale),
        guess,
      );
    },
    slope: (at) => slopeAt(setting, readings, seen, scale, at),
    within: (at) => withinLimits(setting.condition, at),
  };
}

function slopeAt(
  setting: Setting,
  readings: readonly Reading[],
  seen: readonly Seen[],
  scale: number,
  at: Vector,
): Slope {
  const errors = errorsAt(setting, readings, at) ?? [];
  let curvature = identity(KNOBS.length);
  let gradient: Vector = at;
  for (const [n, reading] of readings.entries()) {
    const slopes = slopesIn(setting, reading, at);
    const one = seen[n] as Seen;
    const error = errors[n] ?? 0;
    if (!slopes) continue;
    const down = pull(one, error, scale);
    gradient = gradient.map((value, k) => value - down * (slopes[k] ?? 0));
    curvature = plusSquare(curvature, slopes, steepness(one, error, scale));
  }
  return { gradient, curvature };
}
