/**
 * Ways to choose what is asked before a day that counts, tried on the same simulated players: what is
 * truly held on the day, and for how many answers.
 */

import { type Forecast, planFor } from '../src/scheduler/index.ts';
import { type Course, type Courses, halves, quarters } from './learners-chart.ts';
import { createPlayer } from './learners-player.ts';
import { playSeason, type Season } from './learners-season.ts';
import { answersFor, type Band, bandOf, heldPer100, type Trial } from './learners-sums.ts';
import { atRandom, doubling, dueOrder, planned, requestOf, type Way } from './learners-ways.ts';

const DAYS = 24;

/** New lines a day, as the settings begin with. */
const NEW = 6;

/** Answers a day. */
const BUDGETS = [4, 6, 8, 10, 12] as const;
const BUDGETS_OF_BEST = [...BUDGETS, 16, 24] as const;
const PLANNED = [3, 4, 6, 8, 10] as const;
const BY_ANCHORS = [4, 6, 8, 10] as const;

/** Anchors are compared on the first so many players. */
const PART = 0.25;

/** Due order may choose its settings: the best of these for the same lines held. */
const TARGETS = [0.8, 0.85, 0.9, 0.95] as const;
const NEWS = [3, 6, 10, 20] as const;

export interface LearnersReport {
  readonly players: number;
  readonly lines: number;
  /** Lines truly held on the day per 100 answers, by way and answers a day. */
  readonly per100: readonly {
    readonly name: string;
    readonly rows: readonly {
      readonly budget: number;
      readonly answers: number;
      readonly held: number;
      readonly per100: Band;
    }[];
  }[];
  /** Answers for the lines held that due order holds, as a part of its answers. */
  readonly againstDue: readonly {
    readonly budget: number;
    readonly held: number;
    readonly answers: number;
    readonly ratio: Band;
    readonly ratioOfBest: Band;
  }[];
  /** What the plan said on the first day, and what became of it. */
  readonly forecasts: readonly ForecastReport[];
  readonly anchors: readonly AnchorsReport[];
}

interface ForecastReport {
  readonly budget: number;
  readonly said: Forecast;
  readonly held: number;
  /** Part of the players whose lines held lay in the interval. */
  readonly within: number;
}

/** The same of anchors against every line by heart, both planned. */
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

/** Nobody's answers are known yet, so all players are told the same. */
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

/** Answers that the ways need for what a trial holds, by its own. */
function ratioAt(one: Trial, at: number, ways: readonly Trial[], who: readonly number[]): number {
  const { held, answers } = meanOf(one, at, who);
  return answersFor(ways, held, who) / answers;
}

/** Every player with every budget; players are the same in all trials. */
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
