/** What the answer screen shows, worked out from the same model values as the grade. */

import { isMade, type Outcome, type Question, type Replay, shiftFor } from '../../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  plus,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import { diamondLength, type Mirror, SPEEDS, type Speed } from '../../table/index.ts';
import { fateWords } from './fate.ts';
import {
  type FigureParts,
  lineAtSpeeds,
  linesFigure,
  placeMark,
  playOn,
  routeOf,
  wayToRail,
} from './feedback-figure.ts';
import type { Given } from './given.ts';
import { measuredIn } from './measured.ts';
import { lengthWords, movementWords, type Units } from './quantities.ts';
import { verdictWords } from './verdict.ts';
import { type Working, workingOf } from './working.ts';

export interface SpeedNumber {
  readonly speed: Speed;
  readonly printed: string;
  /** Signed movement from medium; empty for medium itself. */
  readonly movement: string;
}

/** What is said at once, before anything is played. */
export interface Said {
  readonly heading: string;
  readonly outcome: Outcome | 'shown';
  /** What is right, and how far the answer was from it. */
  readonly verdict: string;
}

export interface Feedback extends Said {
  /** What the ball would have done. */
  readonly ball: string;
  /** That the number drawn is not the model's; null where it is. */
  readonly measured: string | null;
  /** The line's numbers; none for a question that is not a line's. */
  readonly speeds: readonly SpeedNumber[];
  /** The speed that is drawn. */
  readonly speed: Speed;
  /** Which lines are drawn: the line alone, the line and yours, or the line at three speeds. */
  readonly legend: 'line' | 'both' | 'speeds';
  readonly figure: FigureParts;
  /** The proportional rule, step by step; null where it does not apply. */
  readonly working: Working | null;
}

/** What an answer is explained with. */
export interface FeedbackContext {
  readonly chart: Chart;
  readonly mirror: Mirror;
  readonly units: Units;
  /** Is there no answer because the clock ran out. */
  readonly ranOut?: boolean;
}

const HEADINGS: Readonly<Record<Outcome, string>> = {
  off: 'Off',
  rattled: 'Rattled',
  pocketed: 'Pocketed',
  'dead center': 'Dead center',
};

/** @param given null for "show me", and where the clock ran out */
export function feedbackFor(
  context: FeedbackContext,
  question: Question,
  given: Given | null,
): Feedback {
  const shown = drawn(context, question, given);
  const speeds = shown.legend === 'speeds' ? SPEEDS : [shown.speed];
  return {
    ...saidOf(context, question, given),
    measured: measuredIn(context.chart, question, speeds),
    speeds: 'line' in question ? speedNumbers(question.line) : [],
    working: workingOf(question),
    ...shown,
  };
}

/** @param given null for "show me", and where the clock ran out */
export function saidOf(
  { ranOut = false }: Pick<FeedbackContext, 'ranOut'>,
  question: Question,
  given: Given | null,
): Said {
  const verdict = verdictWords(question, given);
  if (given) {
    const { outcome } = given.grade;
    return { heading: HEADINGS[outcome], outcome, verdict };
  }
  if (ranOut) return { heading: 'Ran out', outcome: 'off', verdict };
  return { heading: shownHeading(question), outcome: 'shown', verdict };
}

function shownHeading({ kind }: Question): string {
  const headings = { window: 'The window', arrival: 'The arrival', trust: 'How far to trust it' };
  return kind in headings ? headings[kind as keyof typeof headings] : 'The number';
}

type Drawn = Pick<Feedback, 'ball' | 'speed' | 'legend' | 'figure'>;

function drawn(context: FeedbackContext, question: Question, given: Given | null): Drawn {
  switch (question.kind) {
    case 'trust':
      return {
        ...atSpeeds(context, question.line, question.verdict.reason),
        speed: question.verdict.best ?? 'medium',
      };
    case 'window':
      return given ? bothLines(context, question, given) : atSpeeds(context, question.line, '');
    case 'arrival':
      return arrived(context, question, given);
    default:
      return bothLines(context, question, given);
  }
}

function atSpeeds({ chart }: FeedbackContext, line: Line, ball: string): Drawn {
  return { ball, speed: 'medium', legend: 'speeds', figure: lineAtSpeeds(chart, line) };
}

type ArrivalQuestion = Extract<Question, { readonly kind: 'arrival' }>;

/** One line is played; the place called is marked beside the place it gets to. */
function arrived(context: FeedbackContext, question: ArrivalQuestion, given: Given | null): Drawn {
  const { chart, units } = context;
  const { start, aim, speed, count, truth } = question;
  const named = toNumber(aim);
  const shift = shiftFor(chart, question, speed);
  const stretches = wayToRail(chart, routeOf(chart, question), start, named, speed, shift);
  const figure = linesFigure(chart, question, {
    true: { named, label: formatDecimal(aim), stretches, shift },
  });
  const called = given?.values[0];
  const marks = [
    ...(called === undefined ? [] : [placeMark('yours', count, called)]),
    placeMark('true', count, truth[0]),
  ];
  const [error = 0] = given?.grade.errors ?? [];
  const metres =
    toNumber(Math.abs(error) as Decimal) * diamondLength(chart.setting.table, count.rail);
  const ball = error === 0 ? '' : `That is ${lengthWords(metres, units)} along the rail.`;
  return { ball, speed, legend: 'line', figure: { ...figure, marks: [...figure.marks, ...marks] } };
}

type LineQuestion = Exclude<Question, { readonly kind: 'arrival' | 'trust' }>;

/** The true line, and what the player's number would have done. */
function bothLines(context: FeedbackContext, question: LineQuestion, given: Given | null): Drawn {
  const { chart } = context;
  const { speed, called, error, exact, label } = judged(question, given);
  const route = routeOf(chart, question);
  const shift = shiftFor(chart, question, speed);
  const play = (named: number) => playOn(chart, route, question.start, named, speed, shift);
  const truth = play(exact);
  const yours = called === null ? null : play(toNumber(called));
  const rounding = isRounding(question, truth, yours, error);
  const own = yours !== null && called !== null && (error !== 0 || rounding);
  const figure = linesFigure(chart, question, {
    yours: own ? { named: toNumber(called), label: formatDecimal(called), ...yours } : null,
    true: { named: exact, label, ...truth },
  });
  const forgiven =
    given !== null && given.grade.outcome !== 'off' && yours !== null && !isMade(yours);
  const why = rounding
    ? ` That is the rounding to ${formatDecimal(chart.document.printStep)}, not your call.`
    : forgiven
      ? ' Near enough to the number; this line forgives less.'
      : given === null && roundsAway(question, speed, truth, play)
        ? ` Rounded to ${formatDecimal(chart.document.printStep)}, the number misses.`
        : '';
  const ball = `${ballWords(context, question, speed, yours ?? truth)}${why}`;
  return { ball, speed, legend: own ? 'both' : 'line', figure };
}

/** Right as printed, and still not made: printing to a step costs that, not the call. */
function isRounding(
  question: LineQuestion,
  truth: Replay,
  yours: Replay | null,
  error: number,
): boolean {
  return 'line' in question && yours !== null && error === 0 && !isMade(yours) && isMade(truth);
}

/** The line that is shown is made, but not the number as it is printed. */
function roundsAway(
  question: LineQuestion,
  speed: Speed,
  truth: Replay,
  play: (named: number) => Replay,
): boolean {
  if (!('line' in question) || !isMade(truth)) return false;
  return !isMade(play(toNumber(question.line.numbers[speed].printed)));
}

function ballWords(
  { chart, mirror, units }: FeedbackContext,
  question: LineQuestion,
  speed: Speed,
  played: Replay,
): string {
  const { target } = routeOf(chart, question);
  const words = fateWords(played, { setting: chart.setting, target, mirror, units });
  const at = question.kind === 'window' ? `At ${speed} speed the ball` : 'The ball';
  return `${at} ${words}.`;
}

/** The line to draw: for a window at the speed that was further off. */
interface Judged {
  readonly speed: Speed;
  readonly called: Decimal | null;
  readonly error: number;
  readonly exact: number;
  /** The number as it is written at the rail. */
  readonly label: string;
}

function judged(question: LineQuestion, given: Given | null): Judged {
  if (question.kind === 'window') return judgedWindow(question, given);
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

function judgedWindow(
  { line }: Extract<Question, { readonly kind: 'window' }>,
  given: Given | null,
): Judged {
  const [soft = 0, firm = 0] = given?.grade.errors ?? [];
  const field = Math.abs(soft) > Math.abs(firm) ? 0 : 1;
  const speed = field === 0 ? 'soft' : 'firm';
  const change = given?.values[field];
  const called = change === undefined ? null : plus(line.numbers.medium.printed, change);
  const error = given?.grade.errors[field] ?? 0;
  const { exact, printed } = line.numbers[speed];
  return { speed, called, error, exact, label: formatDecimal(printed) };
}

export function speedNumbers(line: Line): readonly SpeedNumber[] {
  const medium = line.numbers.medium.printed;
  return SPEEDS.map((speed) => {
    const { printed } = line.numbers[speed];
    const movement = speed === 'medium' ? '' : movementWords(printed, medium);
    return { speed, printed: formatDecimal(printed), movement };
  });
}
