/**
 * The model set to agree with a measurement. Where a chart's number is not the one that the model
 * solves, the number is what is true of the table: the model then plays every aim of that line and
 * speed as far from its own number as the aim is from the chart's. So the chart's number goes in, and
 * an aim that is 0.2 high does what 0.2 high does in the model.
 */

import { aimNamed, nameAim, type SolvedLine, type Speed, solveLine } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { LinePlace } from '../document/document.ts';
import type { Pattern } from '../document/patterns.ts';
import { patternOf } from '../document/patterns.ts';
import type { Chart } from './chart.ts';
import { isMeasured, launchOf, numberAt } from './numbers.ts';

/**
 * What is taken off an aim before it is played, diamonds through the sight: the number less the
 * solved one. 0 if the model has no number: it then plays an aim as it is given.
 * @param number through the sight
 */
export function shiftOf(number: number, solved: SolvedLine): number {
  return solved.aim === null ? 0 : number - solved.aim;
}

/**
 * The shift of a route for a number that is not the model's own. Solved alone, a number may differ
 * from the column's by 5e-5 of a diamond (solve.ts).
 * @param number unrounded, in the chart's naming
 */
export function shiftFrom(
  chart: Chart,
  route: Pattern,
  start: Decimal,
  number: number,
  speed: Speed,
): number {
  const { setting, naming } = chart;
  const at = toNumber(start);
  const aim = aimNamed(setting.table, route, at, number, naming);
  return shiftOf(aim, solveLine(setting, route, at, launchOf(chart, route, speed)));
}

/** The shift of any start of a pattern. A computed number has none, and nothing is solved for it. */
export function shiftAt(chart: Chart, { pattern, start }: LinePlace, speed: Speed): number {
  const own = chart.lines.find((line) => line.pattern === pattern && line.start === start);
  const solved = own
    ? own.numbers[speed].source === 'computed'
    : chart.document.basis === 'computed' && !isMeasured(chart, pattern);
  const number = solved ? null : numberAt(chart, pattern, start, speed);
  return number === null ? 0 : shiftFrom(chart, patternOf(pattern), start, number, speed);
}

/** The model's number in a number's place, in the chart's naming. */
export function unshifted(
  { setting, naming }: Chart,
  route: Pattern,
  start: Decimal,
  number: number,
  shift: number,
): number {
  const at = toNumber(start);
  const aim = aimNamed(setting.table, route, at, number, naming) - shift;
  return nameAim(setting.table, route, at, aim, naming);
}
