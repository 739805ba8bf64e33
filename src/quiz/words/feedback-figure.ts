/** Draws the answer screen, from the same replays that its words use. */

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

/** A start of a pattern. The chart may or may not have a line there. */
export interface Start {
  readonly pattern: PatternId;
  readonly start: Decimal;
}

/** Returns the route on which a question is played. */
export function routeOf({ setting }: Chart, question: Question): Pattern {
  return routeFor(setting.table, question);
}

/** Returns where the object ball of a kick is; null for a question without an object ball. */
export function objectOf(chart: Chart, question: Question): Point | null {
  if (question.kind !== 'rail ball' && question.kind !== 'off the rail') return null;
  return targetPoint(chart.setting.table, routeOf(chart, question).target);
}

/**
 * Returns the target to ring while the question is asked. Null for an arrival question, because the
 * ring would give the answer away.
 */
export function targetOf(chart: Chart, question: Question): Target | null {
  return question.kind === 'arrival' ? null : routeOf(chart, question).target;
}

/** A number that was played, and the shift (`shiftAt`) that was subtracted from it before. */
export interface Played extends Replay {
  readonly shift: number;
}

/**
 * Plays a number on a route.
 * @param named the number, in the chart's naming
 */
export function playRoute(
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

/**
 * Returns the path to a rail without an object ball, up to the point where the ball touches the
 * rail.
 */
export function pathToRail(
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

/** Plays a line of the chart with a number in the chart's naming. */
export function playNumber(chart: Chart, line: Start, named: number, speed: Speed): Played {
  const shift = shiftAt(chart, line, speed);
  return playRoute(chart, patternOf(line.pattern), line.start, named, speed, shift);
}

/** Converts a number in the chart's naming into the number to aim through at the sight. */
function throughSight(
  { setting, naming }: Chart,
  route: Pattern,
  start: Decimal,
  named: number,
): number {
  return aimNamed(setting.table, route, toNumber(start), named, naming);
}

/** A number that was played, and its label. */
export interface Called {
  readonly named: number;
  readonly label: string;
  readonly stretches: readonly Stretch[];
  /** The shift that was subtracted from the number before it was played; 0 if left out. */
  readonly shift?: number;
}

/**
 * The largest shift, in diamonds, for which the aiming line is drawn. With a larger shift, the ball
 * visibly leaves that line. It is 1.6 cm at the sights of a 9 ft table, a little over half the
 * radius of a ball.
 */
const BESIDE = 0.05;

/** Tells whether the ball visibly follows the line through its number's sight. */
export function followsAim(shift: number): boolean {
  return Math.abs(shift) <= BESIDE;
}

/** Draws the given lines. The true line is drawn on top of the player's. */
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

/**
 * Tells whether a line is soft or firm. Of these, only the path is drawn, because their numbers
 * would crowd the rail.
 */
function isSide(tone: Tone): boolean {
  return tone === 'soft' || tone === 'firm';
}

/** Returns where to draw the ball on its line. Any place some distance from the rail would do. */
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

/** Marks a place on a rail: the place that the player called, or the true one. */
export function placeMark(tone: 'yours' | 'true', count: Count, place: Decimal): FigureMark {
  return { tone, count, diamond: toNumber(place), label: formatDecimal(inHundredths(place)) };
}

/** Returns the figure to show before a line is played: only its start. */
export function onlyStart(at: Start): FigureParts {
  return { paths: [], aims: [], marks: [startMark(at)], ball: null };
}

/** Draws a line at its three speeds. Used for a new line and on the page of a pattern. */
export function lineAtSpeeds(chart: Chart, line: Line): FigureParts {
  const entries = SPEEDS.map((speed) => {
    const { exact, printed } = line.numbers[speed];
    const played = playNumber(chart, line, exact, speed);
    return [speed, { named: exact, label: formatDecimal(printed), ...played }] as const;
  });
  return linesFigure(chart, line, Object.fromEntries(entries));
}

/** Keeps only the first count of each rail, so that the diamonds of a rail are numbered once. */
export function eachRailOnce(counts: readonly Count[]): readonly Count[] {
  return counts.filter((count, n) => counts.findIndex((one) => one.rail === count.rail) === n);
}
