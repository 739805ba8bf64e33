/** Which line is shot next, and the number to aim at. */

import {
  type Chart,
  type Decimal,
  formatDecimal,
  type Line,
  lineFrom,
  minus,
  type PatternId,
  patternOf,
  roundTo,
  size,
  toDecimal,
  toNumber,
} from '../../charts/index.ts';
import type { NextShot, TableShot } from '../../shots/index.ts';
import { aimNamed, divisions, nameAim, type Speed } from '../../table/index.ts';
import { missWords } from './words.ts';

export interface LineChoice {
  readonly pattern: PatternId;
  /** Diamonds. */
  readonly start: number;
  readonly speed: Speed;
  /** Diamonds, through the sight, whatever point the chart names. */
  readonly aim: number;
}

/** A line of the chart, aimed at its printed number. */
export function choose(chart: Chart, line: Line, speed: Speed): LineChoice {
  const { pattern } = line;
  const start = toNumber(line.start);
  return {
    pattern,
    start,
    speed,
    aim: through(chart, pattern, start, line.numbers[speed].printed),
  };
}

/** The most telling line; until that is known, the line shot last, or the chart's first. */
export function suggested(
  chart: Chart,
  next: NextShot | null,
  shots: readonly TableShot[],
): LineChoice {
  if (next) {
    const line = lineAt(chart, next.line.pattern, toNumber(next.line.start));
    if (line) return choose(chart, line, next.speed);
  }
  const last = shots.at(-1);
  const line = (last && lineAt(chart, last.pattern, last.start)) ?? chart.lines[0];
  if (!line) throw new Error('a chart without lines has nothing to shoot');
  return choose(chart, line, last?.speed ?? 'medium');
}

export function lineAt(chart: Chart, pattern: PatternId, start: number): Line | null {
  return lineFrom(chart, pattern, toDecimal(start));
}

/** The number aimed at, as the chart names numbers. */
export function namedAim(
  chart: Chart,
  { pattern, start, aim }: Omit<LineChoice, 'speed'>,
): Decimal {
  const { table } = chart.setting;
  return roundTo(nameAim(table, patternOf(pattern), start, aim, chart.naming), HUNDREDTH);
}

/** Fine enough that a step up and a step down cancel. */
const HUNDREDTH = toDecimal(0.01);

/** The choice aimed some printed steps higher or lower, kept on the rail. */
export function nudged(chart: Chart, choice: LineChoice, steps: number): LineChoice {
  const { pattern, start } = choice;
  const named = namedAim(chart, choice) + steps * chart.document.printStep;
  const rail = divisions(patternOf(pattern).aim.rail);
  const kept = Math.min(toDecimal(rail), Math.max(0, named)) as Decimal;
  const aim = through(chart, pattern, start, kept);
  // A number at the nose may name a sight beyond the end of the rail.
  return { ...choice, aim: Math.min(rail, Math.max(0, aim)) };
}

/** How far above the printed number the aim is, as the chart names numbers; 0 off its lines. */
export function besidePrinted(chart: Chart, choice: LineChoice): Decimal {
  const line = lineAt(chart, choice.pattern, choice.start);
  const named = namedAim(chart, choice);
  return minus(named, line ? line.numbers[choice.speed].printed : named);
}

/** The line at another speed, aimed just as far from the number printed for that speed. */
export function atSpeed(chart: Chart, choice: LineChoice, speed: Speed): LineChoice {
  const line = lineAt(chart, choice.pattern, choice.start);
  if (!line) return { ...choice, speed };
  const beside = besidePrinted(chart, choice);
  return nudged(chart, choose(chart, line, speed), beside / chart.document.printStep);
}

/** "0.2 more than printed"; null at the printed number. */
export function besideWords(chart: Chart, choice: LineChoice): string | null {
  const beside = besidePrinted(chart, choice);
  if (beside === 0) return null;
  return `${formatDecimal(size(beside))} ${beside > 0 ? 'more' : 'less'} than printed`;
}

function through({ setting, naming }: Chart, pattern: PatternId, start: number, named: Decimal) {
  return aimNamed(setting.table, patternOf(pattern), start, toNumber(named), naming);
}

/** "Cross-side from 6.0, medium, aimed at 2.4: short ½" */
export function choiceOf(chart: Chart, shot: TableShot): string {
  const start = formatDecimal(toDecimal(shot.start));
  const aim = formatDecimal(namedAim(chart, shot));
  const name = patternOf(shot.pattern).name;
  return `${name} from ${start}, ${shot.speed}, aimed at ${aim}: ${missWords(shot.miss)}`;
}
