/** Plays the same simulated players with several ways to choose, and sums up how they did. */

import { createDice } from '../../src/cards/index.ts';
import { type Plan, playSeason, type Season } from './season.ts';
import { createTruth, type TruthName } from './truths.ts';
import type { Way } from './ways.ts';

/** A value with its 95 % interval over players (bootstrap, Efron 1979). */
export interface Band {
  readonly value: number;
  readonly low: number;
  readonly high: number;
}

export interface Trial extends Plan {
  readonly truth: TruthName;
  readonly players: number;
  readonly away?: readonly [number, number] | null;
}

/** All ways meet the same players: the seed depends on the player alone. */
export function seasonsOf(
  { truth, players, away = null, ...plan }: Trial,
  way: Way,
): readonly Season[] {
  return Array.from({ length: players }, (_, player) => {
    const one = createTruth(truth, plan.learnt.course, 7919 * player + 1, plan.days, away);
    return playSeason(plan, one, way);
  });
}

const RESAMPLES = 400;

export function bandOf(values: readonly number[]): Band {
  const { next } = createDice(values.length);
  const draw = () => meanOf(values.map(() => values[Math.floor(next() * values.length)] as number));
  const means = Array.from({ length: RESAMPLES }, draw).sort((a, b) => a - b);
  const at = (part: number) => means[Math.round(part * (RESAMPLES - 1))] ?? Number.NaN;
  return { value: meanOf(values), low: at(0.025), high: at(0.975) };
}

export function meanOf(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

/** Lines truly known on a day, or on average over some days. */
export function heldBetween(season: Season, from: number, to = from): number {
  return meanOf(season.held.slice(from, to + 1));
}

/** How far forecasts were off, on average, and how often their intervals covered. */
export interface ForecastScore {
  /** Forecast minus truly known, lines. */
  readonly error: number;
  /** Part of the 90 % intervals that covered, 0–1. */
  readonly covered: number;
  /** Interval score, lines: smaller is better (Gneiting & Raftery 2007, eq. 43, α = 0.1). */
  readonly score: number;
}

/** Scores the forecasts made from one day to another. */
export function scoreOf(
  seasons: readonly Season[],
  from: number,
  to = Number.POSITIVE_INFINITY,
): ForecastScore {
  const all = seasons.flatMap(({ forecasts, held }) =>
    forecasts
      .filter(({ on }) => on >= from && on <= to)
      .map((one) => ({ ...one, known: held.at(-1) as number })),
  );
  const beyond = (low: number, high: number, known: number) =>
    20 * (Math.max(0, low - known) + Math.max(0, known - high));
  return {
    error: meanOf(all.map(({ expected, known }) => expected - known)),
    covered: meanOf(all.map(({ low, high, known }) => Number(known >= low && known <= high))),
    score: meanOf(all.map(({ low, high, known }) => high - low + beyond(low, high, known))),
  };
}
