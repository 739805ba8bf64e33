/**
 * Forecasts the lines known on a day: runs the chooser forward on draws of the player, of missed
 * days and of answers. The same request gives the same forecast.
 */

import { createDice, type Kind } from '../../cards/index.ts';
import type { Trials } from '../log/trials.ts';
import { type Kernel, kernelOf } from '../memory/kernel.ts';
import { AHEAD, choose, type Day, dayOf } from './choose.ts';
import type { Course, InterpolatedLine, Item } from './course.ts';
import {
  CEILINGS,
  type Fading,
  fadedTo,
  type Part,
  type Player,
  playerOf,
  recordOf,
  rightChance,
} from './player.ts';
import { copyOf, NEVER, type Standing, type State, takeStep } from './state.ts';

/** Plain data, so it can be sent to a worker. */
export interface ForecastRequest {
  readonly course: Course;
  readonly state: State;
  readonly trials: Trials;
  /** The weights of FSRS-6 now in use. */
  readonly weights: readonly number[];
  readonly today: number;
  /** The study day that the forecast is for. */
  readonly day: number;
  /** Whether no day is set, so that the chooser always aims AHEAD days ahead. */
  readonly rolling: boolean;
  /** Steps a day: a line shown or a card asked. */
  readonly stepsADay: number;
  /** How many of today's steps were taken. */
  readonly stepsDone: number;
}

export interface Forecast {
  /** Lines known on the day, with a 90 % interval. */
  readonly held: {
    readonly expected: number;
    readonly low: number;
    readonly high: number;
    readonly of: number;
  };
  /** Lines known at the beginning of each day, from today to the day. */
  readonly curve: readonly { readonly day: number; readonly held: number }[];
  /** Steps on each day from today; missed days count as none. */
  readonly load: readonly { readonly day: number; readonly answers: number }[];
  /** Whether nine lines in ten are expected to be known. */
  readonly enough: boolean;
  /** Steps a day that would be enough; null if no number is. */
  readonly stepsNeeded: number | null;
  /** Ids of the number cards of lines that are more likely lost than known. Least worth first. */
  readonly drop: readonly string[];
}

const SEED = 0x7ab1e;
const RUNS = 20;
/** Runs for each number of steps that is tried for how many are enough. */
const TRIES = 3;
/** Days after which the gains of cards that were not asked are computed again. */
const REFRESH = 3;
const ENOUGH = 0.9;
/** The most steps a day that are tried: about an hour and a half. */
const MOST_STEPS = 360;
/**
 * The spread of the count that no run covers, as a part of all lines: of players in general, and for
 * each part by which the player's answers differ from every fading. Tried in the bench.
 */
const UNSEEN_SPREAD = 0.008;
const MISFIT_SPREAD = 1.4;
/** 95th percentile of the standard normal distribution. */
const Z = 1.645;

export function forecastFor(request: ForecastRequest): Forecast {
  const { course, today, stepsADay } = request;
  const kernel = kernelOf(request.weights);
  const player = playerOf(request.trials, kernel, today);
  const runs = runsOf(request, player, kernel, RUNS);
  const held = heldIn(runs, countOf(course), player.misfit);
  const enough = held.expected >= ENOUGH * held.of;
  const byDay = (of: (run: Run) => readonly number[]) =>
    (runs[0] ? of(runs[0]) : []).map((_, n) => runs.map((run) => of(run)[n] ?? 0));
  return {
    held,
    curve: byDay(({ curve }) => curve).map((all, n) => ({ day: today + n, held: meanOf(all) })),
    load: byDay(({ steps }) => steps).map((all, n) => ({ day: today + n, answers: meanOf(all) })),
    enough,
    stepsNeeded: enough ? stepsADay : stepsNeeded(request, player, kernel),
    drop: dropped(course, runs),
  };
}

/** The mean of the runs, with a 90 % interval that also covers what no run does. */
function heldIn(runs: readonly Run[], of: number, misfit: number): Forecast['held'] {
  const counts = runs.map(({ curve }) => curve.at(-1) ?? 0);
  const expected = meanOf(counts);
  const squares = counts.map((one) => (one - expected) ** 2);
  const variance = (meanOf(squares) * RUNS) / (RUNS - 1);
  const unseen = (UNSEEN_SPREAD + MISFIT_SPREAD * misfit) * of;
  const wide = Z * Math.hypot(Math.sqrt(variance), unseen);
  return { expected, low: Math.max(0, expected - wide), high: Math.min(of, expected + wide), of };
}

interface Run {
  /** Lines known at the beginning of each day. */
  readonly curve: readonly number[];
  readonly steps: readonly number[];
  /** By item, the chance that it is known on the day. */
  readonly known: readonly number[];
}

function runsOf(request: ForecastRequest, player: Player, kernel: Kernel, count: number) {
  const { next } = createDice(SEED);
  return Array.from({ length: count }, (_, n): Run => {
    const drawn = drawPlayer(player, (n + 0.5) / count, next);
    return runOf(request, kernel, drawn, next);
  });
}

/** A player of whom only the answers are left to chance. */
interface Drawn {
  readonly fading: Fading;
  readonly ceiling: Readonly<Record<Kind, number>>;
  readonly first: Readonly<Record<Kind, number>>;
  readonly pattern: Player['pattern'];
  readonly missed: number;
}

/** @param at from 0 to 1; spread evenly over the runs */
function drawPlayer(player: Player, at: number, next: () => number): Drawn {
  const { fadings, ceilings, first, pattern, missed } = player;
  const chances = fadings.map(({ chance }) => chance);
  const n = drawIndex(chances, at);
  return {
    fading: fadings[n] as Fading,
    ceiling: recordOf((kind) => CEILINGS[drawIndex(ceilings[kind][n] ?? [], next())] ?? 1),
    first: recordOf((kind) => drawPart(first[kind], next)),
    pattern,
    missed: drawPart(missed, next),
  };
}

/** Approximates a beta distribution by a normal one, itself a sum of three uniform numbers. */
function drawPart({ part, worth }: Part, next: () => number): number {
  const normal = 2 * (next() + next() + next() - 1.5);
  const drawn = part + normal * Math.sqrt((part * (1 - part)) / (worth + 1));
  return Math.min(0.98, Math.max(0.02, drawn));
}

function drawIndex(chances: readonly number[], at: number): number {
  let sum = 0;
  const n = chances.findIndex((chance) => {
    sum += chance;
    return at < sum;
  });
  return n < 0 ? chances.length - 1 : n;
}

function runOf(request: ForecastRequest, kernel: Kernel, drawn: Drawn, next: () => number): Run {
  const { course, today, day, rolling, stepsADay, stepsDone } = request;
  const state = copyOf(request.state);
  const known = (n: number, on: number): number => {
    const { kind, pattern } = course.items[n] as Item;
    const { stability, lastDay } = state.standings[n] as Standing;
    if (stability === 0) return 0;
    const recall = fadedTo(kernel, drawn.fading, stability, on - lastDay);
    return Math.min(1, drawn.ceiling[kind] * drawn.pattern(pattern) * recall);
  };
  const isRight = (n: number, on: number): boolean => {
    const { kind } = course.items[n] as Item;
    const isFirst = (state.standings[n] as Standing).stability === 0;
    return next() < (isFirst ? drawn.first[kind] : rightChance(kind, known(n, on)));
  };
  const held = (on: number) => linesHeld(course, (n) => known(n, on));
  const curve: number[] = [];
  const steps: number[] = [];
  let ahead: Day | null = null;
  for (let on = today; on < day; on++) {
    curve.push(held(on));
    const most = on === today ? Math.max(0, stepsADay - stepsDone) : stepsADay;
    const before = (on - today) % REFRESH === 0 ? null : ahead;
    ahead = dayOf(course, state, on, rolling ? on + AHEAD : day, kernel, before);
    const comes = on === today || next() >= drawn.missed;
    steps.push(comes ? playDay(course, state, ahead, most, isRight, kernel) : 0);
  }
  curve.push(held(day));
  return { curve, steps, known: course.items.map((_, n) => known(n, day)) };
}

/** Returns how many steps the day took. */
function playDay(
  course: Course,
  state: State,
  day: Day,
  most: number,
  isRight: (n: number, on: number) => boolean,
  kernel: Kernel,
): number {
  for (let step = 0; step < most; step++) {
    const n = choose(course, state, day);
    if (n === NEVER) return step;
    takeStep(course, state, n, day.today, kernel, () => isRight(n, day.today));
  }
  return most;
}

/** Lines known: those learned by heart, and those that are interpolated. */
export function linesHeld({ items, interpolated }: Course, known: (n: number) => number): number {
  let sum = 0;
  for (const [n, { kind }] of items.entries()) if (kind === 'number') sum += known(n);
  for (const line of interpolated) sum += heldBetween(line, known);
  return sum;
}

/** The chance that an interpolated line is known: its anchors and its skill all are. */
function heldBetween(
  { on: [a, b, skill] }: InterpolatedLine,
  known: (n: number) => number,
): number {
  return known(a) * known(b) * known(skill);
}

function countOf({ items, interpolated }: Course): number {
  return items.filter(({ kind }) => kind === 'number').length + interpolated.length;
}

function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = (sorted.length - 1) / 2;
  return meanOf([sorted[Math.floor(half)] ?? 0, sorted[Math.ceil(half)] ?? 0]);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, one) => sum + one, 0) / values.length;
}

function dropped({ items, interpolated }: Course, runs: readonly Run[]): readonly string[] {
  const chance = (of: (known: readonly number[]) => number) =>
    meanOf(runs.map((run) => of(run.known)));
  const own = items.map(({ id, kind, weight }, n) => {
    const known = kind === 'number' ? chance((all) => all[n] ?? 0) : 1;
    return { id, weight, known };
  });
  const between = interpolated.map((line) => {
    const known = chance((all) => heldBetween(line, (n) => all[n] ?? 0));
    return { id: line.id, weight: line.weight, known };
  });
  return [...own, ...between]
    .filter(({ known }) => known < 0.5)
    .sort((a, b) => a.weight - b.weight || a.known - b.known)
    .map(({ id }) => id);
}

/** Bisects the number of steps a day, by a few runs each. */
function stepsNeeded(request: ForecastRequest, player: Player, kernel: Kernel): number | null {
  const of = countOf(request.course);
  const isEnough = (stepsADay: number): boolean => {
    const runs = runsOf({ ...request, stepsADay }, player, kernel, TRIES);
    return medianOf(runs.map(({ curve }) => curve.at(-1) ?? 0)) >= ENOUGH * of;
  };
  let [low, high] = [request.stepsADay, MOST_STEPS];
  if (low >= high || !isEnough(high)) return null;
  while (high - low > Math.max(1, low / 8)) {
    const middle = Math.round((low + high) / 2);
    if (isEnough(middle)) high = middle;
    else low = middle;
  }
  return high;
}
