/** What the answer screen shows, worked out from the same model values as the grade. */

import {
  type Card,
  isMade,
  type NumberCard,
  type Outcome,
  type Replay,
  replay,
  type WindowCard,
} from '../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  patternOf,
  plus,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import type { FigureAim, FigureMark, FigurePath, Tone } from '../figure/index.ts';
import {
  aimNamed,
  type Mirror,
  type Point,
  pointAlong,
  SPEEDS,
  type Speed,
  type Stretch,
} from '../table/index.ts';
import type { Given } from './phase.ts';
import { errorWords, fateWords, movementWords, type Units } from './words.ts';

export interface FigureParts {
  readonly paths: readonly FigurePath[];
  readonly aims: readonly FigureAim[];
  readonly marks: readonly FigureMark[];
  readonly ball: Point | null;
}

export interface SpeedNumber {
  readonly speed: Speed;
  readonly printed: string;
  /** Signed movement from medium; empty for medium itself. */
  readonly movement: string;
}

export interface Feedback {
  readonly heading: string;
  readonly outcome: Outcome | 'shown';
  /** The number, and how far the answer was from it. */
  readonly verdict: string;
  /** What the ball would have done. */
  readonly ball: string;
  readonly speeds: readonly SpeedNumber[];
  /** The speed that is drawn. */
  readonly speed: Speed;
  /** Which lines are drawn: the line alone, the line and yours, or the line at three speeds. */
  readonly legend: 'line' | 'both' | 'speeds';
  readonly figure: FigureParts;
}

const HEADINGS: Readonly<Record<Outcome, string>> = {
  off: 'Off',
  rattled: 'Rattled',
  pocketed: 'Pocketed',
  'dead center': 'Dead center',
};

/** @param given null for "show me" */
export function feedbackFor(
  chart: Chart,
  card: Card,
  mirror: Mirror,
  given: Given | null,
  units: Units,
): Feedback {
  const { speed, called, error, exact } = judged(card, given);
  const truth = playAt(chart, card.line, exact, speed);
  const yours = called === null ? null : playAt(chart, card.line, toNumber(called), speed);
  const { target } = patternOf(card.pattern);
  const context = { setting: chart.setting, target, mirror, units };
  // Right as printed, and still not clean: printing to a step costs that, not the call.
  const rounding = yours !== null && error === 0 && !isMade(yours) && isMade(truth);
  const drawn = yours !== null && (error !== 0 || rounding) ? yours : null;
  const at = card.kind === 'window' ? `At ${speed} speed the ball` : 'The ball';
  const why = rounding
    ? ` That is the rounding to ${formatDecimal(chart.document.printStep)}, not your call.`
    : '';
  const three = given === null && card.kind === 'window';
  return {
    heading: given
      ? HEADINGS[given.grade.outcome]
      : card.kind === 'window'
        ? 'The window'
        : 'The number',
    outcome: given ? given.grade.outcome : 'shown',
    verdict: verdictWords(card, given),
    ball: three ? '' : `${at} ${fateWords(yours ?? truth, context)}.${why}`,
    speeds: speedNumbers(card.line),
    speed: three ? 'medium' : speed,
    legend: three ? 'speeds' : drawn ? 'both' : 'line',
    figure: three
      ? lineAtSpeeds(chart, card.line)
      : figureOf(chart, card, { speed, truth, exact, yours: drawn, called }),
  };
}

/** The line to draw: at medium for a number; for a window at the speed that was further off. */
function judged(
  card: Card,
  given: Given | null,
): {
  readonly speed: Speed;
  readonly called: Decimal | null;
  readonly error: number;
  readonly exact: number;
} {
  const numbers = card.line.numbers;
  if (card.kind === 'number') {
    const called = given?.values[0] ?? null;
    const error = given?.grade.errors[0] ?? 0;
    return { speed: card.speed, called, error, exact: numbers[card.speed].exact };
  }
  const [soft = 0, firm = 0] = given?.grade.errors ?? [];
  const field = Math.abs(soft) > Math.abs(firm) ? 0 : 1;
  const speed = field === 0 ? 'soft' : 'firm';
  const change = given?.values[field];
  const called = change === undefined ? null : plus(numbers.medium.printed, change);
  const error = given?.grade.errors[field] ?? 0;
  return { speed, called, error, exact: numbers[speed].exact };
}

/** @param named a number in the chart's naming */
export function playAt(chart: Chart, line: Line, named: number, speed: Speed): Replay {
  const { setting } = chart;
  const pattern = patternOf(line.pattern);
  const launch = { ...pattern.stroke, speed: setting.condition.speeds[speed] };
  return replay(setting, pattern, toNumber(line.start), throughSight(chart, line, named), launch);
}

/** The number through the sight that a number of the chart stands for. */
function throughSight({ setting, naming }: Chart, line: Line, named: number): number {
  return aimNamed(setting.table, patternOf(line.pattern), toNumber(line.start), named, naming);
}

function verdictWords(card: Card, given: Given | null): string {
  return card.kind === 'number' ? numberVerdict(card, given) : windowVerdict(card, given);
}

function numberVerdict(card: NumberCard, given: Given | null): string {
  const { exact, printed } = card.line.numbers[card.speed];
  // Printing rounds; where that moves the ball, say so, or the two sentences seem to disagree.
  const hundredths = toDecimal(Math.round(exact * 100) / 100);
  // A third decimal where two would look like a tie that was rounded the wrong way.
  const fine = hundredths % 1000 === 500 ? toDecimal(Math.round(exact * 1000) / 1000) : hundredths;
  const rounded = fine === printed ? '' : ` (${formatDecimal(fine, 2)} before rounding)`;
  const number = `${formatDecimal(printed)} is the number${rounded}`;
  const [called] = given?.values ?? [];
  const [error] = given?.grade.errors ?? [];
  if (called === undefined || error === undefined) return `${number}.`;
  if (error === 0) return `${number}. You called it.`;
  return `${number}. You called ${formatDecimal(called)}: ${errorWords(error)}.`;
}

function windowVerdict(card: WindowCard, given: Given | null): string {
  const { soft, medium, firm } = card.line.numbers;
  const window = `Soft ${movementWords(soft.printed, medium.printed)}, firm ${movementWords(firm.printed, medium.printed)}`;
  if (!given) return `${window}.`;
  const names = ['soft', 'firm'] as const;
  const wrong = given.grade.errors.flatMap((error, n) => {
    const called = given.values[n];
    if (error === 0 || called === undefined) return [];
    return [`${names[n]} ${formatDecimal(called, 1, true)} (${errorWords(error)})`];
  });
  return wrong.length === 0
    ? `${window}. You called both.`
    : `${window}. You called ${wrong.join(' and ')}.`;
}

export function speedNumbers(line: Line): readonly SpeedNumber[] {
  const medium = line.numbers.medium.printed;
  return SPEEDS.map((speed) => {
    const { printed } = line.numbers[speed];
    const movement = speed === 'medium' ? '' : movementWords(printed, medium);
    return { speed, printed: formatDecimal(printed), movement };
  });
}

interface Drawn {
  readonly speed: Speed;
  readonly truth: Replay;
  readonly exact: number;
  readonly yours: Replay | null;
  readonly called: Decimal | null;
}

function figureOf(chart: Chart, card: Card, drawn: Drawn): FigureParts {
  const { truth, yours, called } = drawn;
  const printed = card.line.numbers[drawn.speed].printed;
  const own =
    yours && called !== null
      ? [lineParts(chart, card.line, 'yours', yours, toNumber(called), formatDecimal(called))]
      : [];
  const parts = [
    ...own,
    lineParts(chart, card.line, 'true', truth, drawn.exact, formatDecimal(printed)),
  ];
  return {
    paths: parts.map((part) => part.path),
    aims: parts.map((part) => part.aim),
    marks: [startMark(card.line), ...parts.map((part) => part.mark)],
    ball: ballOn(truth.stretches),
  };
}

/** A place for the ball on its line, some way from the rail: it may lie anywhere on it. */
function ballOn([first]: readonly Stretch[]): Point | null {
  return first ? pointAlong(first, first.duration * 0.3) : null;
}

function lineParts(
  chart: Chart,
  line: Line,
  tone: Tone,
  played: Replay,
  named: number,
  label: string,
) {
  const { start, aim: count } = patternOf(line.pattern);
  return {
    path: { tone, stretches: played.stretches },
    aim: {
      tone,
      from: { count: start, diamond: toNumber(line.start) },
      through: { count, diamond: throughSight(chart, line, named) },
    },
    mark: { tone, count, diamond: named, label },
  };
}

export function startMark(line: Line): FigureMark {
  const { start } = patternOf(line.pattern);
  return {
    tone: 'start',
    count: start,
    diamond: toNumber(line.start),
    label: formatDecimal(line.start),
  };
}

/** A line at its three speeds: for meeting it and for the pattern's page. */
export function lineAtSpeeds(chart: Chart, line: Line): FigureParts {
  const parts = SPEEDS.map((speed) => {
    const { exact, printed } = line.numbers[speed];
    return lineParts(
      chart,
      line,
      speed,
      playAt(chart, line, exact, speed),
      exact,
      formatDecimal(printed),
    );
  });
  const medium = parts.filter((part) => part.path.tone === 'medium');
  return {
    paths: parts.map((part) => part.path),
    aims: medium.map((part) => part.aim),
    marks: [startMark(line), ...medium.map((part) => part.mark)],
    ball: ballOn(medium[0]?.path.stretches ?? []),
  };
}
