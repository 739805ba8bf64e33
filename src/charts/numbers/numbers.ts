/** Numbers between a chart's lines and beyond its targets, unrounded and in the chart's naming. */

import {
  type Launch,
  nameAim,
  type Speed,
  solveLine,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, toDecimal, toNumber } from '../document/decimal.ts';
import type { Pattern, PatternId } from '../document/patterns.ts';
import { patternOf } from '../document/patterns.ts';
import type { Chart } from './chart.ts';
import { monotoneCubic } from './monotone-cubic.ts';

/** Is any line of the pattern measured. */
export function isMeasured(chart: Chart, pattern: PatternId): boolean {
  return chart.lines.some((line) => line.pattern === pattern && line.source === 'measured');
}

/** How a pattern is struck at one of the chart's speeds. */
export function launchOf({ setting }: Chart, { stroke }: Pattern, speed: Speed): Launch {
  return { ...stroke, speed: setting.condition.speeds[speed] };
}

/**
 * The number of any start of a pattern, diamonds; a line's own where there is one. Between lines it is
 * solved if all of the pattern's are computed: null outside the pattern's starts, or if there is none.
 * If any is measured, or nothing is ever solved, it is the monotone cubic through the lines: null
 * outside them, for measured numbers say nothing of what lies beyond.
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
 * @param route a pattern, as it is or as a kick (`kickTo`)
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

/** The same; or why there is none. */
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
