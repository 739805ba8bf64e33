/**
 * Fits the table's condition to test shots by robust nonlinear least squares in the knobs of
 * condition-knobs.ts. The chart's condition is a weak prior (each knob 0 ± 1). The fit minimizes
 * the disagreement between all shots and a table (noise.ts), in diamonds of aim, plus half the sum
 * of the squared knobs.
 */

import type { Chart } from '../charts/index.ts';
import type { Condition, Setting } from '../table/index.ts';
import { residualAt } from './arrival.ts';
import { costOf, covarianceAt, errorsAt } from './condition-cost.ts';
import { KNOBS, type Knob, SPREADS, turned, turnedTable } from './condition-knobs.ts';
import { descend } from './descent.ts';
import { type LineSlope, lineSlopes, numberError } from './line-slopes.ts';
import { beyond, type Observation, scaleOf, weightOf } from './noise.ts';
import { type Reading, readOn } from './reading.ts';
import type { TableShot } from './shot.ts';
import { dot, inverse, type Matrix, times, type Vector } from './small-matrix.ts';

/** Why no condition can be given. */
export const NO_CONDITION = ['too few shots', 'too few patterns', 'too uncertain'] as const;
export type NoCondition = (typeof NO_CONDITION)[number];

/** A shot compared with the chart's table and with the fitted one. */
export interface FittedShot {
  readonly shot: TableShot;
  /**
   * Observed minus expected, in diamonds along the rail. `before` is for the chart's table, `after`
   * for the fitted one. For a made shot, it tells how far the expected point is outside the pocket
   * opening. Null if the ball does not arrive there.
   */
  readonly before: number | null;
  readonly after: number | null;
  /** How far the shot's number is from the fitted table's, in diamonds of aim (`errorsAt`). */
  readonly error: number;
  /**
   * The correction that the shot asks for beyond the fit, in diamonds of aim; 0 if the fit makes
   * the shot.
   */
  readonly residual: number;
  /** The part of its pull on the fit that the shot keeps, 0–1. */
  readonly weight: number;
}

export interface ConditionFit {
  readonly condition: Condition;
  /** Standard errors of the knobs. That of the speed is relative. */
  readonly errors: Readonly<Record<Knob, number>>;
  /** Root mean square of the standard errors of the chart's numbers, in diamonds. */
  readonly numberError: number;
  readonly iterations: number;
  /** How many times larger the errors are than the coarseness with which people see; ≥ 1. */
  readonly scale: number;
  readonly shots: readonly FittedShot[];
  /** Whether the condition differs from the chart's, at the 90 % level. */
  readonly differs: boolean;
  /** The covariance of the knobs, in units of their spreads. */
  readonly covariance: Matrix;
}

export type ConditionAnswer =
  | { readonly ok: true; readonly fit: ConditionFit }
  | { readonly ok: false; readonly why: NoCondition };

const FEWEST = 8;
const FEWEST_PATTERNS = 2;
/**
 * A fit counts only if its numbers have at most this standard error, in diamonds: the printed step.
 * With a larger error, one correction for all numbers is the better advice.
 */
const MOST_ERROR = 0.1;
const ROUNDS = 5;
/** The 90 % point of χ² with three degrees of freedom (printed tables, from memory). */
const CHI_SQUARED = 6.251;
const NONE: Vector = KNOBS.map(() => 0);

export function conditionOf(chart: Chart, shots: readonly TableShot[]): ConditionAnswer {
  const readings = shots.flatMap((shot) => readOn(chart, shot) ?? []);
  if (readings.length < FEWEST) return { ok: false, why: 'too few shots' };
  if (new Set(readings.map(({ shot }) => shot.pattern)).size < FEWEST_PATTERNS) {
    return { ok: false, why: 'too few patterns' };
  }
  const fit = fitCondition(chart.setting, readings, lineSlopes(chart, ['medium']));
  return fit && fit.numberError <= MOST_ERROR
    ? { ok: true, fit }
    : { ok: false, why: 'too uncertain' };
}

/**
 * Fits the condition to the readings.
 * @returns null if a ball does not arrive on the chart's own table
 */
function fitCondition(
  setting: Setting,
  readings: readonly Reading[],
  lines: readonly LineSlope[],
): ConditionFit | null {
  const seen = readings.map((reading): Observation => ({ ...reading.seen, middle: 0 }));
  const best = bestKnobs(setting, readings, seen);
  if (!best) return null;
  const { at, errors, scale, iterations } = best;
  const covariance = covarianceAt(setting, readings, seen, at, scale);
  if (!covariance) return null;
  const fitted = turnedTable(setting, at);
  return {
    condition: turned(setting.condition, at),
    errors: errorsOf(covariance),
    numberError: rootMeanSquare(lines.map((line) => numberError(line, covariance))),
    iterations,
    scale,
    differs: distance(at, covariance) > CHI_SQUARED,
    covariance,
    shots: readings.map(({ shot, played }, n) => {
      const [one, error] = [seen[n] as Observation, errors[n] ?? 0];
      return {
        shot,
        before: residualAt(setting, played, shot.miss),
        after: residualAt(fitted, played, shot.miss),
        error,
        residual: beyond(one, error),
        weight: weightOf(one, error, scale),
      };
    }),
  };
}

/**
 * Returns the best knobs. The fit needs the scale of the errors, and the scale needs the fit, so
 * this alternates between them.
 */
function bestKnobs(setting: Setting, readings: readonly Reading[], seen: readonly Observation[]) {
  let at = NONE;
  let errors: Vector = [];
  let scale = 1;
  let iterations = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const minimum = descend(costOf(setting, readings, seen, scale), at);
    const left = minimum && errorsAt(setting, readings, minimum.at);
    if (!minimum || !left) return null;
    iterations += minimum.iterations;
    at = minimum.at;
    errors = left;
    scale = scaleOf(seen, errors, KNOBS.length);
  }
  return { at, errors, scale, iterations };
}

/** Returns the squared distance from the chart's condition, in standard errors: atᵀ C⁻¹ at. */
function distance(at: Vector, covariance: Matrix): number {
  const inverted = inverse(covariance);
  return inverted ? dot(at, times(inverted, at)) : 0;
}

function errorsOf(covariance: Matrix): Readonly<Record<Knob, number>> {
  const error = (knob: Knob) => {
    const n = KNOBS.indexOf(knob);
    return SPREADS[knob] * Math.sqrt(covariance[n]?.[n] ?? 0);
  };
  return {
    restitution: error('restitution'),
    noseFriction: error('noseFriction'),
    speed: error('speed'),
  };
}

function rootMeanSquare(values: readonly number[]): number {
  return Math.sqrt(dot(values, values) / Math.max(1, values.length));
}
