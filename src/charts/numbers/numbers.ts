/**
 * Finds numbers at starts between a chart's lines, and numbers to other targets. They are unrounded
 * and in the chart's naming.
 */

import {
  type Launch,
  nameAim,
  type Speed,
  solveLine,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, toDecimal, toNumber } from '../document/decimal.ts';
import { type Pattern, type PatternId, patternOf } from '../document/patterns.ts';
import type { Chart } from './chart.ts';
import { monotoneCubic } from './monotone-cubic.ts';

/** Returns whether any line of the pattern is measured. */
export function isMeasured(chart: Chart, pattern: PatternId): boolean {
  return chart.lines.some((line) => line.pattern === pattern && line.source === 'measured');
}

/** Returns how a pattern's ball is struck at one of the chart's speeds. */
export function launchOf({ setting }: Chart, { stroke }: Pattern, speed: Speed): Launch {
  return { ...stroke, speed: setting.condition.speeds[speed] };
}

/**
 * Returns the number at any start of a pattern, in diamonds. If the chart has a line there, it is
 * that line's number. Between lines it is solved if all of the pattern's lines are computed; it is
 * null outside the pattern's starts, or if there is no number. On a measured chart or pattern it
 * comes from the monotone cubic through the lines. It is then null outside them, because measured
 * numbers do not extrapolate.
 */
export function numberAt(
  chart: Chart,
  pattern: PatternId,
  start: Decimal,
  speed: Speed,
): number | null {
  const lines = chart.lines.filter((line) => line.pattern === pattern);
  const own = lines.find((line) => line.start === start);
  if (own) return own.numbers[speed].exact;
  if (chart.document.basis === 'measured' || isMeasured(chart, pattern)) {
    const curve = monotoneCubic(
      lines.map((line) => ({ x: toNumber(line.start), y: line.numbers[speed].exact })),
    );
    return curve(toNumber(start));
  }
  const route = patternOf(pattern);
  const [first, last] = route.starts;
  if (start < toDecimal(first) || start > toDecimal(last)) return null;
  return numberTo(chart, route, start, speed);
}

/**
 * Returns the solved number to a route's target, in diamonds, with the pattern's stroke; null if
 * there is none.
 * @param route a pattern, or a pattern as a kick (`kickTo`)
 */
export function numberTo(
  chart: Chart,
  route: Pattern,
  start: Decimal,
  speed: Speed,
): number | null {
  const number = numberOrWhy(chart, route, start, speed);
  return typeof number === 'number' ? number : null;
}

/** Returns the same as `numberTo`, or the reason why there is no number. */
export function numberOrWhy(
  chart: Chart,
  route: Pattern,
  start: Decimal,
  speed: Speed,
): number | Unreachable {
  const { setting, naming } = chart;
  const at = toNumber(start);
  const { aim, why } = solveLine(setting, route, at, launchOf(chart, route, speed));
  return why ?? nameAim(setting.table, route, at, aim, naming);
}
