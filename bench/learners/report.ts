/**
 * Compares ways to choose on simulated players: lines truly known, minutes used, each kind's share,
 * and how forecasts came out. docs/speed.md has the results; docs/design/choose.md what came before.
 */

import { type ForecastRequest, forecastFor } from '../../src/scheduler/choose/forecast.ts';
import { ALL, SIXTY } from './courses.ts';
import {
  type Band,
  bandOf,
  type ForecastScore,
  heldBetween,
  meanOf,
  scoreOf,
  seasonsOf,
} from './trial.ts';
import { TRUTHS, type TruthName } from './truths.ts';
import {
  atRandom,
  dueOrder,
  lowestRecall,
  newLinesFirst,
  oneStepGain,
  type Way,
  withLearnedFactor,
} from './ways.ts';

const WAYS: Readonly<Record<string, Way>> = {
  'one-step gain': oneStepGain,
  'due order': dueOrder,
  'new lines first': newLinesFirst,
  'lowest recall': lowestRecall,
  'at random': atRandom,
};

/** How long a step takes, seconds: an answer and the look at its result. */
const STEP = 16;

const MINUTES = [3, 5, 10, 20] as const;
const ANSWERS = [4, 8, 12] as const;
const NAMES = Object.keys(TRUTHS) as readonly TruthName[];

/** Days of a longer absence. */
type Away = readonly [number, number] | null;

export interface Row {
  readonly way: string;
  readonly truth: TruthName;
  /** Minutes a day; for the 60 lines, answers a day. */
  readonly time: number;
  /** Lines truly known; each is null where it does not apply. */
  readonly day14: Band | null;
  readonly day30: Band | null;
  readonly day60to120: Band | null;
  readonly theDay: Band | null;
  /** Minutes used in all. */
  readonly used: number;
  /** The least share of any kind that is known in the end, 0–1. */
  readonly leastKind: number;
}

/** All cards, no day set: 121 days. Away for three weeks if wanted. */
export function withoutDay(
  players: number,
  away: Away = null,
  truths = NAMES,
  minutes: readonly number[] = MINUTES,
) {
  return rowsOf(truths, minutes, ({ way, truth, time }) => {
    const plan = { learnt: ALL, days: 121, day: null, stepsADay: stepsIn(time) };
    const seasons = seasonsOf({ ...plan, truth, players, away }, way);
    return { ...common(seasons), ...heldOn(seasons) };
  });
}

/** All cards, and a day that counts in 40 days. */
export function withDay(players: number) {
  return rowsOf(NAMES, MINUTES, ({ way, truth, time }) => {
    const plan = { learnt: ALL, days: 40, day: 40, stepsADay: stepsIn(time) };
    const seasons = seasonsOf({ ...plan, truth, players }, way);
    return { ...common(seasons), theDay: heldAtEnd(seasons) };
  });
}

/** 60 lines by heart, and a day that counts in 24 days. */
export function sixtyLines(
  players: number,
  away: Away = null,
  truths = NAMES,
  answers: readonly number[] = ANSWERS,
) {
  const ways = { ...WAYS, 'gain, learned factor': withLearnedFactor };
  return rowsOf(
    truths,
    answers,
    ({ way, truth, time }) => {
      const plan = { learnt: SIXTY, days: 24, day: 24, stepsADay: time };
      const seasons = seasonsOf({ ...plan, truth, players, away }, way);
      return { ...common(seasons), theDay: heldAtEnd(seasons) };
    },
    ways,
  );
}

export interface ForecastRow {
  readonly truth: TruthName;
  readonly minutes: number;
  /** Made on the first day, and after the first third of the days. */
  readonly first: ForecastScore;
  readonly later: ForecastScore;
}

const FORECAST_ON = [0, 14, 20, 27, 34] as const;

/** Forecasts for a day that counts in 40 days, against what is truly known then. */
export function forecasts(players: number): readonly ForecastRow[] {
  const forecast = (request: ForecastRequest) => forecastFor(request).held;
  return NAMES.flatMap((truth) =>
    MINUTES.map((minutes) => {
      const plan = { learnt: ALL, days: 40, day: 40, stepsADay: stepsIn(minutes) };
      const made = { ...plan, truth, players, forecastOn: FORECAST_ON, forecast };
      const seasons = seasonsOf(made, oneStepGain);
      return { truth, minutes, first: scoreOf(seasons, 0, 0), later: scoreOf(seasons, 14) };
    }),
  );
}

interface Cell {
  readonly way: Way;
  readonly truth: TruthName;
  readonly time: number;
}

const NOTHING = { day14: null, day30: null, day60to120: null, theDay: null };

function rowsOf(
  truths: readonly TruthName[],
  times: readonly number[],
  play: (cell: Cell) => Partial<Row> & Pick<Row, 'used' | 'leastKind'>,
  ways: Readonly<Record<string, Way>> = WAYS,
): readonly Row[] {
  return truths.flatMap((truth) =>
    times.flatMap((time) =>
      Object.entries(ways).map(([name, way]) => {
        const cell = { truth, time };
        return { ...NOTHING, way: name, ...cell, ...play({ ...cell, way }) };
      }),
    ),
  );
}

type Seasons = ReturnType<typeof seasonsOf>;

function common(seasons: Seasons): Pick<Row, 'used' | 'leastKind'> {
  const kinds = [...(seasons[0]?.kinds.keys() ?? [])];
  const shares = kinds.map((kind) => meanOf(seasons.map((one) => one.kinds.get(kind) ?? 0)));
  return {
    used: (meanOf(seasons.map(({ steps }) => steps)) * STEP) / 60,
    leastKind: Math.min(...shares),
  };
}

function heldOn(seasons: Seasons): Pick<Row, 'day14' | 'day30' | 'day60to120'> {
  const band = (from: number, to = from) =>
    bandOf(seasons.map((season) => heldBetween(season, from, to)));
  return { day14: band(14), day30: band(30), day60to120: band(60, 120) };
}

function heldAtEnd(seasons: Seasons): Band {
  return bandOf(seasons.map(({ held }) => held.at(-1) ?? Number.NaN));
}

function stepsIn(minutes: number): number {
  return Math.round((minutes * 60) / STEP);
}
