/**
 * Finds which aims at a line drop at each speed, and so how far to trust the line. If the chart's
 * number differs from the model's, the aims that drop are moved by the same difference.
 */

import {
  type Chart,
  type Decimal,
  isPatternId,
  type Pattern,
  shiftAt,
  toNumber,
  type Verdict,
  verdictOf,
} from '../charts/index.ts';
import { aimNamed, type MakeWindow, makeWindowOf, nameAim, type Speed } from '../table/index.ts';

/** A value for each speed, or null if there is none. */
type BySpeed<T> = Readonly<Record<Speed, T | null>>;

/**
 * Returns the range of aims that drop at each speed, in the chart's naming; null if none drops or
 * there is no number.
 * @param pattern a pattern with a pocket as its target
 * @param numbers unrounded, in the chart's naming
 */
export function windowsAt(
  chart: Chart,
  pattern: Pattern,
  start: Decimal,
  numbers: BySpeed<number>,
): BySpeed<MakeWindow> {
  const { setting, naming } = chart;
  const { id } = pattern;
  if (!isPatternId(id)) throw new Error(`no pattern ${id}`);
  const from = toNumber(start);
  const windowAt = (speed: Speed): MakeWindow | null => {
    const number = numbers[speed];
    if (number === null) return null;
    const launch = { ...pattern.stroke, speed: setting.condition.speeds[speed] };
    const through = aimNamed(setting.table, pattern, from, number, naming);
    const shift = shiftAt(chart, { pattern: id, start }, speed);
    const window = makeWindowOf(setting, pattern, from, launch, through - shift);
    const named = (aim: number) => nameAim(setting.table, pattern, from, aim, naming);
    return window && { from: named(window.from + shift), to: named(window.to + shift) };
  };
  return { soft: windowAt('soft'), medium: windowAt('medium'), firm: windowAt('firm') };
}

/** Returns how far to trust the line. The parameters are those of `windowsAt`. */
export function verdictAt(
  chart: Chart,
  pattern: Pattern,
  start: Decimal,
  numbers: BySpeed<number>,
): Verdict {
  return verdictOf(windowsAt(chart, pattern, start, numbers));
}
