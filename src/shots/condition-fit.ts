/**
 * The table's condition from test shots: robust nonlinear least squares in the knobs of
 * condition-knobs.ts, with the chart's condition as a weak guess (each knob 0 ± 1). What is made small
 * is the disagreement of every shot (shot-noise.ts) with the table that is tried, in diamonds of aim,
 * and half the square of the knobs.
 */

import type { Chart } from '../charts/index.ts';
import type { Condition, Setting } from '../table/index.ts';
import { leftAt, type TableShot } from './arrival.ts';
import { covarianceAt, errorsAt, hillOf } from './condition-hill.ts';
import { KNOBS, type Knob, SPREADS, turned, turnedTable } from './condition-knobs.ts';
import { descend } from './descent.ts';
import { type LineSlope, lineSlopes, numberError } from './line-slopes.ts';
import { beyond, type Seen, scaleOf, weightOf } from './noise.ts';
import { type Reading, readOn } from './reading.ts';
import { dot, inverse, type Matrix, times, type Vector } from './small-matrix.ts';

/** Why no condition is given. */
export const NO_CONDITION = ['too few shots', 'too few patterns', 'too little told'] as const;
export type NoCondition = (typeof NO_CONDITION)[number];

/** A shot against the chart's table, and against the fitted one. */
export interface FittedShot {
  readonly shot: TableShot;
  /** Seen less expected, diamonds along the rail; of a made shot, what is beyond the opening. */
  readonly before: number | null;
  readonly after: number | null;
  /** How far its number is from where the fitted table has it, diamonds of aim (condition-hill.ts). */
  readonly error: number;
  /** What it asks for beyond the fitted table, diamonds of aim; 0 if that is made. */
  readonly left: number;
  /** The part of its pull that it keeps, 0–1. */
  readonly weight: number;
}

export interface ConditionFit {
  readonly condition: Condition;
  /** Standard errors: of the speeds as a part of them. */
  readonly errors: Readonly<Record<Knob, number>>;
  /** Root mean square over the chart's lines of the standard error of a number, diamonds. */
  readonly numberError: number;
  readonly iterations: number;
  /** Errors are so many times the coarseness with which numbers and arrivals are told; ≥ 1. */
  readonly scale: number;
  readonly shots: readonly FittedShot[];
  /** Is it another condition than the chart's, at 90 %. */
  readonly differs: boolean;
  /** Of the knobs, in their spreads. */
  readonly covariance: Matrix;
}

export type ConditionAnswer =
  | { readonly ok: true; readonly fit: ConditionFit }
  | { readonly ok: false; readonly why: NoCondition };

const FEWEST = 8;
const FEWEST_PATTERNS = 2;
/**
 * A fit is given when the numbers that follow from it are known to this, diamonds: what a number is
 * printed to. One correction for all is the better advice before.
 */
const TOLD = 0.1;
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
  return fit && fit.numberError <= TOLD ? { ok: true, fit } : { ok: false, why: 'too little told' };
}

/** @returns null if a shot is lost on the chart's own table */
export function fitCondition(
  setting: Setting,
  readings: readonly Reading[],
  lines: readonly LineSlope[],
): ConditionFit | null {
  const seen = readings.map((reading): Seen => ({ ...reading.seen, middle: 0 }));
  let at = NONE;
  let scale = 1;
  let iterations = 0;
  for (let round = 0; round < ROUNDS; round++) {
    const found = descend(hillOf(setting, readings, seen, scale), at);
    const errors = found && errorsAt(setting, readings, found.at);
    if (!found || !errors) return null;
    iterations += found.iterations;
    at = found.at;
    scale = scaleOf(seen, errors, KNOBS.length);
  }
  const covariance = covarianceAt(setting, readings, seen, at, scale);
  const errors = errorsAt(setting, readings, at);
  if (!covariance || !errors) return null;
  const fitted = turnedTable(setting, at);
  return {
    condition: turned(setting.condition, at),
    errors: errorsOf(covariance),
    numberError: rootMeanSquare(lines.map((line) => numberError(line, covariance))),
    iterations,
    scale,
    differs: distance(at, covariance) > CHI_SQUARED,
    covariance,
    shots: readings.map(({ shot, played }, n) => ({
      shot,
      before: leftAt(setting, played, shot.miss),
      after: leftAt(fitted, played, shot.miss),
      error: errors[n] ?? 0,
      left: beyond(seen[n] as Seen, errors[n] ?? 0),
      weight: weightOf(seen[n] as Seen, errors[n] ?? 0, scale),
    })),
  };
}

/** Squared, in standard errors: atᵀ C⁻¹ at. */
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
