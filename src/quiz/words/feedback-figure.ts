/** The drawing of the answer screen, from the same replays as its words. */

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

/** The object ball of a kick; null for a question without one. */
export function objectOf(chart: Chart, question: Question): Point | null {
  if (question.kind !== 'rail ball' && question.kind !== 'off the rail') return null;
  return targetPoint(chart.setting.table, routeOf(chart, question).target);
}

/** The target to ring while the question is asked; null for an arrival, which it would give away. */
export function targetOf(chart: Chart, question: Question): Target | null {
  return question.kind === 'arrival' ? null : routeOf(chart, question).target;
}

/** A played number, and the shift subtracted from it first (`shiftAt`). */
export interface Played extends Replay {
  readonly shift: number;
}

/** @param named a number in the chart's naming */
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

/** The path to a rail without a ball, up to the touch. */
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

/** Plays a chart's line with a number in the chart's naming. */
export function playNumber(chart: Chart, line: Start, named: number, speed: Speed): Played {
  const shift = shiftAt(chart, line, speed);
  return playRoute(chart, patternOf(line.pattern), line.start, named, speed, shift);
}

/** Converts a number of the chart into the number through the sight. */
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
  /** The shift subtracted from the number before it was played; 0 if left out. */
  readonly shift?: number;
}

/**
 * With a larger shift, diamonds, the ball visibly leaves the line through its sight, and that line is
 * not drawn. 1.6 cm at a 9 ft table's sights, a little over half a ball's radius.
 */
const BESIDE = 0.05;

/** Does the ball leave along the line through its number's sight. */
export function followsAim(shift: number): boolean {
  return Math.abs(shift) <= BESIDE;
}

/** The given lines; the true one is drawn over the player's own. */
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

/** Soft and firm are drawn as paths only: their numbers would crowd the rail. */
function isSide(tone: Tone): boolean {
  return tone === 'soft' || tone === 'firm';
}

/** A place for the ball on its line, some distance from the rail: any place on the line would do. */
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

/** A place on a rail: the player's or the true one. */
export function placeMark(tone: 'yours' | 'true', count: Count, place: Decimal): FigureMark {
  return { tone, count, diamond: toNumber(place), label: formatDecimal(inHundredths(place)) };
}

/** The figure before a line is played. */
export function onlyStart(at: Start): FigureParts {
  return { paths: [], aims: [], marks: [startMark(at)], ball: null };
}

/** A line at its three speeds, for a new line and for the pattern's page. */
export function lineAtSpeeds(chart: Chart, line: Line): FigureParts {
  const entries = SPEEDS.map((speed) => {
    const { exact, printed } = line.numbers[speed];
    const played = playNumber(chart, line, exact, speed);
    return [speed, { named: exact, label: formatDecimal(printed), ...played }] as const;
  });
  return linesFigure(chart, line, Object.fromEntries(entries));
}

/** Each rail once, in the first of its counts, so that its diamonds are numbered once. */
export function eachRailOnce(counts: readonly Count[]): readonly Count[] {
  return counts.filter((count, n) => counts.findIndex((one) => one.rail === count.rail) === n);
}
