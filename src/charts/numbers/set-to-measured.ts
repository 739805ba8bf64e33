/**
 * Sets the model to agree with a measurement. If a chart's number differs from the solved one, the
 * chart's number is right for the table. For that line and speed, the model then plays every aim as
 * far from its own number as the aim is from the chart's number. So the chart's number drops, and
 * an aim 0.2 above it does what an aim 0.2 above the model's number does in the model.
 */

import { aimNamed, nameAim, type SolvedLine, type Speed, solveLine } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { LinePlace } from '../document/document.ts';
import { type Pattern, patternOf } from '../document/patterns.ts';
import { type Chart, lineFrom } from './chart.ts';
import { isMeasured, launchOf, numberAt } from './numbers.ts';

/**
 * Returns how much to subtract from an aim before playing it, in diamonds through the sight: the
 * number minus the solved one. It is 0 if the model has no number; the model then plays an aim
 * unchanged.
 * @param number through the sight
 */
export function shiftOf(number: number, solved: SolvedLine): number {
  return solved.aim === null ? 0 : number - solved.aim;
}

/**
 * Returns the shift of a route for a number that is not the model's own. A number that is solved
 * separately may differ by 5e-5 diamond from one that is solved with its column (solve.ts).
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

/**
 * Returns the shift at any start of a pattern; 0 for a computed number, without solving anything.
 */
export function shiftAt(chart: Chart, { pattern, start }: LinePlace, speed: Speed): number {
  const own = lineFrom(chart, pattern, start);
  const solved = own
    ? own.numbers[speed].source === 'computed'
    : chart.document.basis === 'computed' && !isMeasured(chart, pattern);
  const number = solved ? null : numberAt(chart, pattern, start, speed);
  return number === null ? 0 : shiftFrom(chart, patternOf(pattern), start, number, speed);
}

/** Returns the model's number for a chart's number, in the chart's naming. */
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
