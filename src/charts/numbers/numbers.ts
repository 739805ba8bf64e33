/** Numbers at starts between a chart's lines, and to other targets: unrounded, in the chart's naming. */

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

/** Whether any line of the pattern is measured. */
export function isMeasured(chart: Chart, pattern: PatternId): boolean {
  return chart.lines.some((line) => line.pattern === pattern && line.source === 'measured');
}

/** How a pattern is struck at one of the chart's speeds. */
export function launchOf({ setting }: Chart, { stroke }: Pattern, speed: Speed): Launch {
  return { ...stroke, speed: setting.condition.speeds[speed] };
}

/**
 * The number at any start of a pattern, diamonds: a line's own if there is one. Between lines it is
 * solved if all of the pattern's lines are computed; null outside the pattern's starts, or if there is
 * no number. On a measured chart or pattern it is the monotone cubic through the lines; null outside
 * them, because measured numbers do not extrapolate.
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
 * The solved number to a route's target, diamonds, struck as the pattern is; null if there is none.
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

/** Like `numberTo`, but says why there is no number. */
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
