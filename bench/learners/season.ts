/** Plays one player's days, and compares what was forecast with what is truly known. */

import type { Course, Item } from '../../src/scheduler/choose/course.ts';
import {
  type Forecast,
  type ForecastRequest,
  linesHeld,
} from '../../src/scheduler/choose/forecast.ts';
import { NEVER, type Standing, stateOf, takeStep } from '../../src/scheduler/choose/state.ts';
import { DEFAULT_WEIGHTS, foldLog, PUBLISHED } from '../../src/scheduler/index.ts';
import { countDay, countTrial, noTrials } from '../../src/scheduler/log/trials.ts';
import { kernelOf } from '../../src/scheduler/memory/kernel.ts';
import type { Learnt } from './courses.ts';
import type { Truth } from './truths.ts';
import type { Way } from './ways.ts';

export interface Plan {
  readonly learnt: Learnt;
  readonly days: number;
  /** The day that counts; null if none is set. */
  readonly day: number | null;
  readonly stepsADay: number;
  /** Days on which a forecast is made. */
  readonly forecastOn?: readonly number[];
  readonly forecast?: (request: ForecastRequest) => Forecast['held'];
}

export interface Season {
  /** Lines truly known at the beginning of each day, and after the last. */
  readonly held: readonly number[];
  readonly steps: number;
  /** The true recall after the last day, on average by kind. */
  readonly kinds: ReadonlyMap<string, number>;
  readonly forecasts: readonly (Forecast['held'] & { readonly on: number })[];
}

const KERNEL = kernelOf(DEFAULT_WEIGHTS);

export function playSeason(plan: Plan, truth: Truth, way: Way): Season {
  const { learnt, days, day, stepsADay, forecastOn = [], forecast } = plan;
  const { course, cards } = learnt;
  const state = stateOf(course, cards, foldLog([]), 0);
  const trials = noTrials();
  const held: number[] = [];
  const forecasts: (Forecast['held'] & { on: number })[] = [];
  let steps = 0;
  for (let today = 0; today < days; today++) {
    held.push(linesKnown(course, truth, today));
    if (forecast && forecastOn.includes(today)) {
      const at = { course, state, trials, weights: DEFAULT_WEIGHTS, today, stepsADay };
      const asked = { ...at, day: day ?? today + 30, rolling: day === null, stepsDone: 0 };
      forecasts.push({ on: today, ...forecast(asked) });
    }
    if (truth.missed[today]) continue;
    const next = way({ course, state, trials, today, day, stepsADay, dice: truth.dice });
    for (let step = 0; step < stepsADay; step++) {
      const n = next();
      if (n === NEVER) break;
      steps += 1;
      const before = { ...(state.standings[n] as Standing) };
      let right = false;
      const isRight = () => {
        right = truth.ask(n, today);
        return right;
      };
      if (!takeStep(course, state, n, today, KERNEL, isRight)) continue;
      const { kind, pattern } = course.items[n] as Item;
      const { stability, lastDay } = before;
      const since = today - lastDay;
      countDay(trials, today);
      const seen = { stability, days: since, recall: PUBLISHED.recall({ stability }, since) };
      countTrial(trials, { kind, pattern, right, before: stability === 0 ? null : seen });
    }
  }
  held.push(linesKnown(course, truth, days));
  return { held, steps, kinds: byKind(course, truth, days), forecasts };
}

function linesKnown(course: Course, { recall }: Truth, day: number): number {
  return linesHeld(course, (n) => recall(n, day));
}

function byKind({ items }: Course, { recall }: Truth, day: number): ReadonlyMap<string, number> {
  const sums = new Map<string, { sum: number; all: number }>();
  for (const [n, { kind }] of items.entries()) {
    const one = sums.get(kind) ?? { sum: 0, all: 0 };
    sums.set(kind, { sum: one.sum + recall(n, day), all: one.all + 1 });
  }
  return new Map([...sums].map(([kind, { sum, all }]) => [kind, sum / all]));
}
