/**
 * Compares ways to choose the questions before a day that counts, on the same simulated players: the
 * lines truly known on the day, and the answers they took.
 */

import { type Forecast, planFor } from '../src/scheduler/index.ts';
import { type Course, type Courses, halves, quarters } from './learners-chart.ts';
import { createPlayer } from './learners-player.ts';
import { playSeason, type Season } from './learners-season.ts';
import { answersFor, type Band, bandOf, heldPer100, type Trial } from './learners-sums.ts';
import { atRandom, doubling, dueOrder, planned, requestOf, type Way } from './learners-ways.ts';

const DAYS = 24;

/** New lines a day, the default setting. */
const NEW = 6;

/** Answers a day. */
const BUDGETS = [4, 6, 8, 10, 12] as const;
const BUDGETS_OF_BEST = [...BUDGETS, 16, 24] as const;
const PLANNED = [3, 4, 6, 8, 10] as const;
const BY_ANCHORS = [4, 6, 8, 10] as const;

/** Share of the players on whom anchors are compared, the first ones. */
const PART = 0.25;

/** Settings of due order; the best for the same lines known also competes. */
const TARGETS = [0.8, 0.85, 0.9, 0.95] as const;
const NEWS = [3, 6, 10, 20] as const;

export interface LearnersReport {
  readonly players: number;
  readonly lines: number;
  /** Lines truly known on the day per 100 answers, by way and answers a day. */
  readonly per100: readonly {
    readonly name: string;
    readonly rows: readonly {
      readonly budget: number;
      readonly answers: number;
      readonly held: number;
      readonly per100: Band;
    }[];
  }[];
  /** Answers for the lines due order achieves, as a fraction of its answers. */
  readonly againstDue: readonly {
    readonly budget: number;
    readonly held: number;
    readonly answers: number;
    readonly ratio: Band;
    readonly ratioOfBest: Band;
  }[];
  /** The plan's forecast on the first day against the result. */
  readonly forecasts: readonly ForecastReport[];
  readonly anchors: readonly AnchorsReport[];
}

interface ForecastReport {
  readonly budget: number;
  readonly said: Forecast;
  readonly held: number;
  /** Share of the players whose result lay in the interval. */
  readonly within: number;
}

/** The same for anchors against every line by heart, both planned. */
export interface AnchorsReport {
  readonly chart: string;
  readonly players: number;
  readonly lines: number;
  readonly cards: number;
  readonly rows: readonly {
    readonly budget: number;
    readonly held: number;
    readonly answers: number;
    readonly ratio: Band;
  }[];
}

export function benchLearners(players: number): LearnersReport {
  const { byHeart } = halves();
  const due = trial(players, byHeart, dueOrder(0.9, NEW), BUDGETS);
  const plan = trial(players, byHeart, planned(NEW), PLANNED);
  const others = TARGETS.flatMap((target) =>
    NEWS.map((fresh) => trial(players, byHeart, dueOrder(target, fresh), BUDGETS_OF_BEST)),
  );
  const some = Math.ceil(PART * players);
  return {
    players,
    lines: byHeart.lines.length,
    per100: [
      { name: 'planned', rows: rowsOf(plan) },
      { name: 'due order', rows: rowsOf(due) },
      { name: 'doubling intervals', rows: rowsOf(trial(players, byHeart, doubling(NEW), BUDGETS)) },
      { name: 'at random', rows: rowsOf(trial(players, byHeart, atRandom, BUDGETS)) },
    ],
    againstDue: againstDue(players, plan, due, others),
    forecasts: plan.budgets.map((budget, at) => forecastReport(byHeart, plan, budget, at)),
    anchors: [
      againstHeart('every half diamond', halves(), some),
      againstHeart('every quarter', quarters(), some),
    ],
  };
}

function againstDue(
  players: number,
  plan: Trial,
  due: Trial,
  others: readonly Trial[],
): LearnersReport['againstDue'] {
  return due.budgets.map((budget, at) => ({
    budget,
    ...meanOf(due, at),
    ratio: bandOf(players, (who) => ratioAt(due, at, [plan], who)),
    ratioOfBest: bandOf(players, (who) => {
      const { held } = meanOf(due, at, who);
      return answersFor([plan], held, who) / answersFor(others, held, who);
    }),
  }));
}

/** No answers are known yet, so the forecast is the same for all players. */
function forecastReport(course: Course, one: Trial, budget: number, at: number): ForecastReport {
  const place = { today: 0, day: DAYS, budget, left: budget };
  const start = { course, seen: new Map(), ...place, dice: () => 0 };
  const said = planFor(requestOf(start, NEW)).forecast;
  const seasons = one.seasons[at] ?? [];
  const inside = seasons.filter(({ held }) => held >= said.low && held <= said.high);
  return { budget, said, held: meanOf(one, at).held, within: inside.length / seasons.length };
}

function againstHeart(
  chart: string,
  { byHeart, byAnchors }: Courses,
  players: number,
): AnchorsReport {
  const heart = trial(players, byHeart, planned(NEW), BY_ANCHORS);
  const anchors = trial(players, byAnchors, planned(NEW), BY_ANCHORS);
  return {
    chart,
    players,
    lines: byHeart.lines.length,
    cards: byAnchors.tasks.length,
    rows: BY_ANCHORS.map((budget, at) => ({
      budget,
      ...meanOf(heart, at),
      ratio: bandOf(players, (who) => ratioAt(heart, at, [anchors], who)),
    })),
  };
}

/** Answers the ways need for the lines of a trial, over its own answers. */
function ratioAt(one: Trial, at: number, ways: readonly Trial[], who: readonly number[]): number {
  const { held, answers } = meanOf(one, at, who);
  return answersFor(ways, held, who) / answers;
}

/** Plays every player with every budget; all trials have the same players. */
export function trial(
  players: number,
  course: Course,
  way: Way,
  budgets: readonly number[],
): Trial {
  const season = (budget: number, player: number): Season =>
    playSeason(createPlayer(7919 * player + 1, DAYS), course, way, DAYS, budget);
  return {
    budgets,
    seasons: budgets.map((budget) =>
      Array.from({ length: players }, (_, player) => season(budget, player)),
    ),
  };
}

function meanOf(
  one: Trial,
  at: number,
  who: readonly number[] = (one.seasons[at] ?? []).map((_, player) => player),
): Season {
  const seasons = one.seasons[at] ?? [];
  const mean = (of: (season: Season) => number) =>
    who.reduce((sum, player) => sum + of(seasons[player] as Season), 0) / who.length;
  return { answers: mean(({ answers }) => answers), held: mean(({ held }) => held) };
}

function rowsOf(one: Trial): LearnersReport['per100'][number]['rows'] {
  return one.budgets.map((budget, at) => ({
    budget,
    ...meanOf(one, at),
    per100: bandOf(one.seasons[at]?.length ?? 0, (who) => heldPer100(meanOf(one, at, who))),
  }));
}
