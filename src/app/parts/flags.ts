/**
 * Flags on the lines of a chart. A flag marks a number that the player doubts, and gives the
 * player's own number instead.
 */

import { lineIdOf, type Replay } from '../../cards/index.ts';
import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  type PatternId,
  patternOf,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import {
  type FigureParts,
  fateWords,
  linesFigure,
  playNumber,
  type Units,
} from '../../quiz/index.ts';
import type { Flag, LogState } from '../../scheduler/index.ts';
import { divisions, type Speed } from '../../table/index.ts';
import { PRINTED } from './shot.ts';

/** Returns the starts of a pattern's flagged lines. */
export function flaggedStarts(
  chart: Chart,
  pattern: PatternId,
  { flags }: LogState,
): ReadonlySet<Decimal> {
  const lines = chart.lines.filter((line) => line.pattern === pattern);
  return new Set(
    lines.filter((line) => flags.has(lineIdOf(chart, line))).map(({ start }) => start),
  );
}

/** Returns a sentence such as "You flagged this line: 2.1 instead of 2.0 at medium." */
export function flagWords(line: Line, { speed, number }: Flag): string {
  const yours = toDecimal(number);
  const { printed } = line.numbers[speed];
  const said = formatDecimal(yours);
  if (yours === printed) return `You flagged this line: ${said} at ${speed}, as the chart has it.`;
  return `You flagged this line: ${said} instead of ${formatDecimal(printed)} at ${speed}.`;
}

export interface FlagPlayed {
  readonly speed: Speed;
  /** What the ball does with the player's number, and with the chart's. */
  readonly yours: string;
  readonly charts: string;
  readonly figure: FigureParts;
}

/**
 * Plays the flagged number and the chart's number; null if the rail has no place for the flagged
 * number.
 */
export function playFlag(
  chart: Chart,
  line: Line,
  { speed, number }: Flag,
  units: Units,
): FlagPlayed | null {
  const { target, aim } = patternOf(line.pattern);
  if (number < 0 || number > divisions(aim.rail)) return null;
  const { printed } = line.numbers[speed];
  const charts = toNumber(printed);
  const mine = playNumber(chart, line, number, speed);
  // The ball plays the chart's number as printed, not as solved, to compare two printed numbers.
  const theirs = playNumber(chart, line, charts, speed);
  const words = (played: Replay): string =>
    fateWords(played, { setting: chart.setting, target, mirror: PRINTED, units });
  const label = formatDecimal(printed);
  return {
    speed,
    yours: `With ${formatDecimal(toDecimal(number))} the ball ${words(mine)}.`,
    charts: `With the chart’s ${label} it ${words(theirs)}.`,
    figure: linesFigure(chart, line, {
      yours: { named: number, label: formatDecimal(toDecimal(number)), ...mine },
      true: { named: charts, label, ...theirs },
    }),
  };
}
