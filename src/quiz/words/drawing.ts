/** Decides which lines the answer screen draws, and says what the ball does. */

import { isMade, type Question, type Replay, shiftFor } from '../../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  plus,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import { diamondLength, type Mirror, type Speed } from '../../table/index.ts';
import { fateWords } from './fate.ts';
import {
  type FigureParts,
  lineAtSpeeds,
  linesFigure,
  type Played,
  pathToRail,
  placeMark,
  playRoute,
  routeOf,
} from './feedback-figure.ts';
import type { Given } from './given.ts';
import { lengthWords, type Units } from './quantities.ts';

export interface DrawingContext {
  readonly chart: Chart;
  readonly mirror: Mirror;
  readonly units: Units;
}

/** What the answer screen draws, and the words that go with it. */
export interface Drawing {
  /** Says what the ball would have done. */
  readonly ball: string;
  /** The speed at which the line is drawn. */
  readonly speed: Speed;
  /**
   * Which lines are drawn: only the true one, the true one and the player's, or the line at three
   * speeds.
   */
  readonly legend: 'line' | 'both' | 'speeds';
  readonly figure: FigureParts;
}

export function drawingFor(
  context: DrawingContext,
  question: Question,
  given: Given | null,
): Drawing {
  switch (question.kind) {
    case 'trust':
      return {
        ...drawSpeeds(context, question.line, question.verdict.reason),
        speed: question.verdict.best ?? 'medium',
      };
    case 'window':
      return given ? drawBoth(context, question, given) : drawSpeeds(context, question.line, '');
    case 'arrival':
      return drawArrival(context, question, given);
    default:
      return drawBoth(context, question, given);
  }
}

function drawSpeeds({ chart }: DrawingContext, line: Line, ball: string): Drawing {
  return { ball, speed: 'medium', legend: 'speeds', figure: lineAtSpeeds(chart, line) };
}

type ArrivalQuestion = Extract<Question, { readonly kind: 'arrival' }>;

/** Plays one line. Marks the place that the player called, and the place where the line arrives. */
function drawArrival(
  context: DrawingContext,
  question: ArrivalQuestion,
  given: Given | null,
): Drawing {
  const { chart } = context;
  const { start, aim, speed, count, truth } = question;
  const named = toNumber(aim);
  const shift = shiftFor(chart, question, speed);
  const stretches = pathToRail(chart, routeOf(chart, question), start, named, speed, shift);
  const figure = linesFigure(chart, question, {
    true: { named, label: formatDecimal(aim), stretches, shift },
  });
  const called = given?.values[0];
  const marks = [
    ...(called === undefined ? [] : [placeMark('yours', count, called)]),
    placeMark('true', count, truth[0]),
  ];
  const ball = alongRailWords(context, question, given);
  return { ball, speed, legend: 'line', figure: { ...figure, marks: [...figure.marks, ...marks] } };
}

/** Returns, for example, "That is 5 inches along the rail."; empty if the call is exact. */
function alongRailWords(
  { chart, units }: DrawingContext,
  { count }: ArrivalQuestion,
  given: Given | null,
): string {
  const [error = 0] = given?.grade.errors ?? [];
  if (error === 0) return '';
  const diamonds = toNumber(Math.abs(error) as Decimal);
  const metres = diamonds * diamondLength(chart.setting.table, count.rail);
  return `That is ${lengthWords(metres, units)} along the rail.`;
}

type LineQuestion = Exclude<Question, { readonly kind: 'arrival' | 'trust' }>;

/**
 * A question's line, played with the true number and, if the player answered, with the player's
 * number.
 */
interface Play {
  readonly line: DrawnLine;
  readonly truth: Played;
  readonly yours: Played | null;
  readonly playNamed: (named: number) => Played;
}

/** Draws the true line, and what the ball would have done with the player's number. */
function drawBoth(context: DrawingContext, question: LineQuestion, given: Given | null): Drawing {
  const { chart } = context;
  const play = playBoth(chart, question, given);
  const { line, truth, yours } = play;
  const { speed, called, error, exact, label } = line;
  const own = yours !== null && called !== null && (error !== 0 || isRounding(question, play));
  const figure = linesFigure(chart, question, {
    yours: own ? { named: toNumber(called), label: formatDecimal(called), ...yours } : null,
    true: { named: exact, label, ...truth },
  });
  const words = ballWords(context, question, speed, yours ?? truth);
  const ball = `${words}${whyWords(chart, question, given, play)}`;
  return { ball, speed, legend: own ? 'both' : 'line', figure };
}

function playBoth(chart: Chart, question: LineQuestion, given: Given | null): Play {
  const line = drawnLine(question, given);
  const { speed, called, exact } = line;
  const route = routeOf(chart, question);
  const shift = shiftFor(chart, question, speed);
  const playNamed = (named: number) => playRoute(chart, route, question.start, named, speed, shift);
  const yours = called === null ? null : playNamed(toNumber(called));
  return { line, truth: playNamed(exact), yours, playNamed };
}

/** Says why the ball does not do what the grade suggests; empty if it does. */
function whyWords(chart: Chart, question: LineQuestion, given: Given | null, play: Play): string {
  const step = formatDecimal(chart.document.printStep);
  if (isRounding(question, play)) return ` That is the rounding to ${step}, not your call.`;
  const { yours } = play;
  if (given !== null && given.grade.outcome !== 'off' && yours !== null && !isMade(yours))
    return ' Close enough to count, but this line needs better.';
  if (given === null && roundsAway(question, play))
    return ` Rounded to ${step}, the number misses.`;
  return '';
}

/**
 * Tells whether the call equals the printed number and still misses, while the exact number is
 * made. The rounding of the printed number is then to blame, not the call.
 */
function isRounding(question: LineQuestion, { line, truth, yours }: Play): boolean {
  return (
    'line' in question && yours !== null && line.error === 0 && !isMade(yours) && isMade(truth)
  );
}

/** Tells whether the exact number is made, but the printed number misses. */
function roundsAway(question: LineQuestion, { line, truth, playNamed }: Play): boolean {
  if (!('line' in question) || !isMade(truth)) return false;
  return !isMade(playNamed(toNumber(question.line.numbers[line.speed].printed)));
}

function ballWords(
  { chart, mirror, units }: DrawingContext,
  question: LineQuestion,
  speed: Speed,
  played: Replay,
): string {
  const { target } = routeOf(chart, question);
  const words = fateWords(played, { setting: chart.setting, target, mirror, units });
  const at = question.kind === 'window' ? `At ${speed} speed the ball` : 'The ball';
  return `${at} ${words}.`;
}

/** The line to draw. For a window, it is drawn at the speed with the larger error. */
interface DrawnLine {
  readonly speed: Speed;
  readonly called: Decimal | null;
  readonly error: number;
  readonly exact: number;
  /** The label of the number at the rail. */
  readonly label: string;
}

function drawnLine(question: LineQuestion, given: Given | null): DrawnLine {
  if (question.kind === 'window') return drawnWindow(question, given);
  const called = given?.values[0] ?? null;
  const error = given?.grade.errors[0] ?? 0;
  const { speed } = question;
  if (question.kind === 'number') {
    const { exact, printed } = question.line.numbers[speed];
    return { speed, called, error, exact, label: formatDecimal(printed) };
  }
  const [truth] = question.truth;
  const label = formatDecimal(toDecimal(Math.round(toNumber(truth) * 100) / 100));
  return { speed, called, error, exact: toNumber(truth), label };
}

function drawnWindow(
  { line }: Extract<Question, { readonly kind: 'window' }>,
  given: Given | null,
): DrawnLine {
  const [soft = 0, firm = 0] = given?.grade.errors ?? [];
  const field = Math.abs(soft) > Math.abs(firm) ? 0 : 1;
  const speed = field === 0 ? 'soft' : 'firm';
  const change = given?.values[field];
  const called = change === undefined ? null : plus(line.numbers.medium.printed, change);
  const error = given?.grade.errors[field] ?? 0;
  const { exact, printed } = line.numbers[speed];
  return { speed, called, error, exact, label: formatDecimal(printed) };
}
