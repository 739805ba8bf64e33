/**
 * One correction for tonight's table: what to do to the chart's numbers, from test shots, so that it
 * can be carried in the head. Nothing, one amount for all numbers, one for those of a short or of a
 * long first rail, or one factor.
 *
 * A correction is put forward only if each of its amounts is beyond its two-sided 90 % interval, and
 * judged as it would be said, rounded: by AICc, with the scale of the errors that of the best fit, so
 * that −2 log likelihood is twice the disagreement (shot-noise.ts). Of those within 2 of the best,
 * between which there is "substantial support" for either (Burnham & Anderson 2002, 2.6; from
 * memory), the one that is easiest to carry is said.
 */

import { aimNamed, solveLine } from '../table/index.ts';
import type { Chart } from './chart.ts';
import {
  type AmountOf,
  type Block,
  expectedOf,
  type Fit,
  fitsOf,
  KINDS,
  type NumberGroup,
} from './correction-fit.ts';
import { type Decimal, plus, roundTo, toDecimal, toNumber } from './decimal.ts';
import { numberAt } from './numbers.ts';
import { launchAt, type TableShot } from './shot-arrival.ts';
import type { Estimate } from './shot-fit.ts';
import { beyond, disagreement, weightOf } from './shot-noise.ts';
import { type Reading, readShot } from './shot-reading.ts';
import { t95 } from './student-t.ts';

/** Numbers are through the sight: add to each of the group, or take each so many times. */
export type Correction =
  | { readonly kind: 'offset'; readonly group: NumberGroup; readonly add: Decimal }
  | { readonly kind: 'factor'; readonly times: Decimal };

/** Why there is nothing to say. `too small`: sure, but less than what is said at all. */
export const NO_CORRECTION = [
  'no shots',
  'too few shots',
  'all made',
  'not significant',
  'too small',
] as const;
export type NoCorrection = (typeof NO_CORRECTION)[number];

/** An amount as fitted, unrounded: diamonds, or by how much a factor is more than 1. */
export interface Amount extends Estimate {
  readonly of: AmountOf;
  /** 90 %, two-sided. */
  readonly interval: readonly [number, number];
}

/** A shot in the fit. */
export interface JudgedShot {
  readonly shot: TableShot;
  /** The correction it asks for by itself, less what is fitted, diamonds of aim; 0 if that is made. */
  readonly left: number;
  /** The part of its pull that it keeps, 0–1: 1 if it agrees, little if it is far off. */
  readonly weight: number;
}

export interface Tonight {
  /** One correction, or one for each group; none if there is nothing to say. */
  readonly say: readonly Correction[];
  readonly why: NoCorrection | null;
  /** What is said, or would be, as fitted; empty without a shot that says something. */
  readonly amounts: readonly Amount[];
  /** Errors are so many times the coarseness with which numbers and arrivals are told; ≥ 1. */
  readonly scale: number;
  readonly shots: readonly JudgedShot[];
  /** Shots that on the chart's table do not get where they were seen: they are left out. */
  readonly leftOut: readonly TableShot[];
}

/** Fewer than this do not tell their own spread. */
const FEWEST = 3;
/** What is said is rounded to this: diamonds, or parts of a number. */
const SAID = toDecimal(0.05);
/** AICc within which two corrections explain the shots about as well. */
const AS_GOOD = 2;
/** Below this part of its pull a shot is one that the fit sets little store by. */
export const DOUBTED = 0.5;

/** What to do to the chart's numbers: its measured ones too, whose table is the one they were measured on. */
export function correctionOf(chart: Chart, shots: readonly TableShot[]): Tonight {
  const readings: Reading[] = [];
  const leftOut: TableShot[] = [];
  for (const shot of shots) {
    const reading = readShot(chart.setting, shot);
    if (reading) readings.push(lessOwn(chart, reading));
    else leftOut.push(shot);
  }
  return { ...correctionFrom(readings), leftOut };
}

/** Where the chart's number is not the worked-out one, a shot asks for that much less. */
function lessOwn(chart: Chart, reading: Reading): Reading {
  const { shot, played, seen } = reading;
  const { setting, naming } = chart;
  const start = toDecimal(shot.start);
  const line = chart.lines.find((one) => one.pattern === shot.pattern && one.start === start);
  if (line?.numbers[shot.speed].source === 'computed') return reading;
  const own = numberAt(chart, shot.pattern, start, shot.speed);
  const { aim } = solveLine(setting, played.route, shot.start, launchAt(setting, played));
  if (own === null || aim === null) return reading;
  const through = aimNamed(setting.table, played.route, shot.start, own, naming);
  return { ...reading, seen: { ...seen, middle: seen.middle - (through - aim) } };
}

/** The same from readings. */
export function correctionFrom(readings: readonly Reading[]): Omit<Tonight, 'leftOut'> {
  const fits = fitsOf(readings);
  const [plain] = fits;
  if (!plain) return { say: [], why: 'no shots', amounts: [], scale: 1, shots: [] };
  const { best, why } = choice(readings, fits);
  const fit = best ?? plain;
  return {
    say: best ? saidOf(best) : [],
    why,
    amounts: fit.blocks.map((block) => amountOf(block, readings.length - fit.blocks.length)),
    scale: fit.scale,
    shots: readings.map((reading) => judged(reading, fit)),
  };
}

interface Choice {
  readonly best: Fit | null;
  readonly why: NoCorrection | null;
}

function choice(readings: readonly Reading[], fits: readonly Fit[]): Choice {
  const nothing = (why: NoCorrection): Choice => ({ best: null, why });
  if (readings.length < FEWEST) return nothing('too few shots');
  if (readings.every(({ shot }) => shot.miss === null)) return nothing('all made');
  const sure = fits.filter(({ blocks }) =>
    blocks.every((block) => {
      const [low, high] = amountOf(block, readings.length - blocks.length).interval;
      return low > 0 || high < 0;
    }),
  );
  if (sure.length === 0) return nothing('not significant');
  const sayable = sure.filter((fit) => saidOf(fit).length > 0);
  const scale = Math.min(...fits.map((fit) => fit.scale));
  const ranked = sayable
    .map((fit) => ({ fit, score: scoreOf(readings, fit, scale) }))
    .sort((a, b) => a.score - b.score);
  const least = ranked[0]?.score ?? 0;
  const best = ranked
    .filter(({ score }) => score <= least + AS_GOOD)
    .sort((a, b) => KINDS.indexOf(a.fit.kind) - KINDS.indexOf(b.fit.kind))[0];
  return best ? { best: best.fit, why: null } : nothing('too small');
}

/** AICc of what would be said. */
function scoreOf(readings: readonly Reading[], fit: Fit, scale: number): number {
  const said = fit.blocks.map(({ of, value }) => ({ of, value: toNumber(roundTo(value, SAID)) }));
  const far = readings.reduce(
    (sum, reading) => sum + disagreement(reading.seen, expectedOf(reading, said), scale),
    0,
  );
  const k = fit.blocks.length;
  return 2 * far + 2 * k + (2 * k * (k + 1)) / (readings.length - k - 1);
}

function amountOf({ of, value, standardError }: Block, freedom: number): Amount {
  const far = freedom >= 1 ? t95(freedom) * standardError : Number.POSITIVE_INFINITY;
  return { of, value, standardError, interval: [value - far, value + far] };
}

function saidOf({ blocks }: Fit): readonly Correction[] {
  return blocks.flatMap(({ of, value }): readonly Correction[] => {
    const add = roundTo(value, SAID);
    if (add === 0) return [];
    if (of === 'factor') return [{ kind: 'factor', times: plus(toDecimal(1), add) }];
    return [{ kind: 'offset', group: of, add }];
  });
}

function judged(reading: Reading, { blocks, scale }: Fit): JudgedShot {
  const { shot, seen } = reading;
  const expected = expectedOf(reading, blocks);
  return { shot, left: beyond(seen, expected), weight: weightOf(seen, expected, scale) };
}
