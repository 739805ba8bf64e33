/** What the answer screen draws, from the same replays as its words. */

import { type Question, type Replay, replay, routeFor } from '../../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  launchOf,
  type Pattern,
  type PatternId,
  patternOf,
  shiftAt,
  toNumber,
} from '../../charts/index.ts';
import type { FigureAim, FigureMark, FigurePath, Tone } from '../../figure/index.ts';
import {
  aimNamed,
  type Count,
  type Point,
  playLine,
  pointAlong,
  SPEEDS,
  type Speed,
  type Stretch,
  type Target,
  targetPoint,
} from '../../table/index.ts';
import { inHundredths } from './quantities.ts';

export interface FigureParts {
  readonly paths: readonly FigurePath[];
  readonly aims: readonly FigureAim[];
  readonly marks: readonly FigureMark[];
  readonly ball: Point | null;
}

/** A start of a pattern, with or without a line of the chart. */
export interface Start {
  readonly pattern: PatternId;
  readonly start: Decimal;
}

/** The route a question is played on. */
export function routeOf({ setting }: Chart, question: Question): Pattern {
  return routeFor(setting.table, question);
}

/** Where the ball that is kicked at stands; null for a question without one. */
export function objectOf(chart: Chart, question: Question): Point | null {
  if (question.kind !== 'rail ball' && question.kind !== 'off the rail') return null;
  return targetPoint(chart.setting.table, routeOf(chart, question).target);
}

/** What is ringed as the target while the question is asked; not where an arrival is asked for. */
export function targetOf(chart: Chart, question: Question): Target | null {
  return question.kind === 'arrival' ? null : routeOf(chart, question).target;
}

/** A number played, and what was taken off it first (`shiftAt`). */
export interface Played extends Replay {
  readonly shift: number;
}

/** @param named a number in the chart's naming */
export function playOn(
  chart: Chart,
  route: Pattern,
  start: Decimal,
  named: number,
  speed: Speed,
  shift = 0,
): Played {
  const aim = throughSight(chart, route, start, named) - shift;
  const launch = launchOf(chart, route, speed);
  return { ...replay(chart.setting, route, toNumber(start), aim, launch), shift };
}

/** The way to a rail, where no ball stands: up to the touch. */
export function wayToRail(
  chart: Chart,
  route: Pattern,
  start: Decimal,
  named: number,
  speed: Speed,
  shift: number,
): readonly Stretch[] {
  const aim = throughSight(chart, route, start, named) - shift;
  const launch = launchOf(chart, route, speed);
  return playLine(chart.setting, route, toNumber(start), aim, launch)?.stretches ?? [];
}

/** A chart's line, played with a number in the chart's naming. */
export function playAt(chart: Chart, line: Start, named: number, speed: Speed): Played {
  const shift = shiftAt(chart, line, speed);
  return playOn(chart, patternOf(line.pattern), line.start, named, speed, shift);
}

/** The number through the sight that a number of the chart stands for. */
function throughSight(
  { setting, naming }: Chart,
  route: Pattern,
  start: Decimal,
  named: number,
): number {
  return aimNamed(setting.table, route, toNumber(start), named, naming);
}

/** A number that was played, and how it is written. */
export interface Called {
  readonly named: number;
  readonly label: string;
  readonly stretches: readonly Stretch[];
  /** What was taken off the number before it was played; 0 if left out. */
  readonly shift?: number;
}

/**
 * Further than this, diamonds, the ball leaves beside the line through the sight that it is called
 * by: the line is left out. 1.6 cm at a 9 ft table's sights, a little over half a ball's radius.
 */
const BESIDE = 0.05;

/** Does the ball leave along the line that its number names. */
export function followsAim(shift: number): boolean {
  return Math.abs(shift) <= BESIDE;
}

/** The true line, and the player's own over which it is drawn. */
export function linesFigure(
  chart: Chart,
  at: Start,
  lines: Readonly<Partial<Record<Tone, Called | null>>>,
): FigureParts {
  const drawn = (Object.entries(lines) as [Tone, Called | null][]).flatMap(([tone, called]) =>
    called ? [lineParts(chart, at, tone, called)] : [],
  );
  const truth = lines.true ?? lines.medium ?? null;
  return {
    paths: drawn.map((part) => part.path),
    aims: drawn.flatMap(({ path, aim }) => (isSide(path.tone) || aim === null ? [] : [aim])),
    marks: [startMark(at), ...drawn.flatMap((part) => (isSide(part.path.tone) ? [] : [part.mark]))],
    ball: truth && ballOn(truth.stretches),
  };
}

/** Soft and firm are drawn as ways alone: their numbers would crowd the rail. */
function isSide(tone: Tone): boolean {
  return tone === 'soft' || tone === 'firm';
}

/** A place for the ball on its line, some way from the rail: it may lie anywhere on it. */
function ballOn([first]: readonly Stretch[]): Point | null {
  return first ? pointAlong(first, first.duration * 0.3) : null;
}

function lineParts(chart: Chart, at: Start, tone: Tone, called: Called) {
  const { named, label, stretches, shift = 0 } = called;
  const pattern = patternOf(at.pattern);
  const { start, aim: count } = pattern;
  return {
    path: { tone, stretches },
    aim: followsAim(shift)
      ? {
          tone,
          from: { count: start, diamond: toNumber(at.start) },
          through: { count, diamond: throughSight(chart, pattern, at.start, named) },
        }
      : null,
    mark: { tone, count, diamond: named, label },
  };
}

export function startMark({ pattern, start }: Start): FigureMark {
  return {
    tone: 'start',
    count: patternOf(pattern).start,
    diamond: toNumber(start),
    label: formatDecimal(start),
  };
}

/** A place on a rail, called or true. */
export function placeMark(tone: 'yours' | 'true', count: Count, place: Decimal): FigureMark {
  return { tone, count, diamond: toNumber(place), label: formatDecimal(inHundredths(place)) };
}

/** Before a line is played. */
export function startAlone(at: Start): FigureParts {
  return { paths: [], aims: [], marks: [startMark(at)], ball: null };
}

/** A line at its three speeds: for meeting it and for the pattern's page. */
export function lineAtSpeeds(chart: Chart, line: Line): FigureParts {
  const entries = SPEEDS.map((speed) => {
    const { exact, printed } = line.numbers[speed];
    const played = playAt(chart, line, exact, speed);
    return [speed, { named: exact, label: formatDecimal(printed), ...played }] as const;
  });
  return linesFigure(chart, line, Object.fromEntries(entries));
}

/** Each rail once, in the first of the counts given for it: its diamonds are written out once. */
export function eachRailOnce(counts: readonly Count[]): readonly Count[] {
  return counts.filter((count, n) => counts.findIndex((one) => one.rail === count.rail) === n);
}
