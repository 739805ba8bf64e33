/** Chooses which line is shot next, and the number to aim at. */

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
  /** The start, in diamonds. */
  readonly start: number;
  readonly speed: Speed;
  /**
   * The number aimed at, in diamonds through the sight, even if the chart's numbers are at the
   * nose.
   */
  readonly aim: number;
}

/** Returns a line of the chart, aimed at its printed number. */
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

/**
 * Returns the line that tells most about the table. Until that is known, returns the line that was
 * shot last, or the chart's first.
 */
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

/** Returns the number aimed at, as the chart names numbers. */
export function namedAim(
  chart: Chart,
  { pattern, start, aim }: Omit<LineChoice, 'speed'>,
): Decimal {
  const { table } = chart.setting;
  return roundTo(nameAim(table, patternOf(pattern), start, aim, chart.naming), HUNDREDTH);
}

/** Fine enough that a step up and a step down cancel out. */
const HUNDREDTH = toDecimal(0.01);

/** Returns the choice aimed some printed steps higher or lower, at most to the end of the rail. */
export function nudged(chart: Chart, choice: LineChoice, steps: number): LineChoice {
  const { pattern, start } = choice;
  const named = namedAim(chart, choice) + steps * chart.document.printStep;
  const rail = divisions(patternOf(pattern).aim.rail);
  const kept = Math.min(toDecimal(rail), Math.max(0, named)) as Decimal;
  const aim = through(chart, pattern, start, kept);
  // A number at the nose may mean a sight beyond the end of the rail.
  return { ...choice, aim: Math.min(rail, Math.max(0, aim)) };
}

/**
 * Returns how far the aim is above the printed number, as the chart names numbers; 0 for a start
 * that is not on the chart.
 */
export function besidePrinted(chart: Chart, choice: LineChoice): Decimal {
  const line = lineAt(chart, choice.pattern, choice.start);
  const named = namedAim(chart, choice);
  return minus(named, line ? line.numbers[choice.speed].printed : named);
}

/**
 * Returns the line at another speed. The aim is just as far from the number that is printed for
 * that speed.
 */
export function atSpeed(chart: Chart, choice: LineChoice, speed: Speed): LineChoice {
  const line = lineAt(chart, choice.pattern, choice.start);
  if (!line) return { ...choice, speed };
  const beside = besidePrinted(chart, choice);
  return nudged(chart, choose(chart, line, speed), beside / chart.document.printStep);
}

/** Returns words such as "0.2 more than printed"; null if the aim is the printed number. */
export function besideWords(chart: Chart, choice: LineChoice): string | null {
  const beside = besidePrinted(chart, choice);
  if (beside === 0) return null;
  return `${formatDecimal(size(beside))} ${beside > 0 ? 'more' : 'less'} than printed`;
}

function through({ setting, naming }: Chart, pattern: PatternId, start: number, named: Decimal) {
  return aimNamed(setting.table, patternOf(pattern), start, toNumber(named), naming);
}

/** Returns words such as "Cross-side from 6.0, medium, aimed at 2.4: short ½". */
export function choiceOf(chart: Chart, shot: TableShot): string {
  const start = formatDecimal(toDecimal(shot.start));
  const aim = formatDecimal(namedAim(chart, shot));
  const name = patternOf(shot.pattern).name;
  return `${name} from ${start}, ${shot.speed}, aimed at ${aim}: ${missWords(shot.miss)}`;
}
