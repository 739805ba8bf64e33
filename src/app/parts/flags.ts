/** Flags on the lines of a chart: numbers that the player doubts, and theirs instead. */

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

/** Starts of a pattern's flagged lines. */
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

/** "You flagged this line: 2.1 instead of 2.0 at medium." */
export function flagWords(line: Line, { speed, number }: Flag): string {
  const yours = toDecimal(number);
  const { printed } = line.numbers[speed];
  const said = formatDecimal(yours);
  if (yours === printed) return `You flagged this line: ${said} at ${speed}, as the chart has it.`;
  return `You flagged this line: ${said} instead of ${formatDecimal(printed)} at ${speed}.`;
}

export interface FlagPlayed {
  readonly speed: Speed;
  /** What the ball does with each number. */
  readonly yours: string;
  readonly charts: string;
  readonly figure: FigureParts;
}

/** Plays the flagged number and the chart's; null if the rail has no such number. */
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
  // As printed, not as solved: it compares two printed numbers.
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
