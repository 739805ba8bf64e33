/** How far to trust a line with the numbers a chart gives it: played into the pocket at each speed. */

import {
  type Chart,
  type Decimal,
  type Pattern,
  toNumber,
  type Verdict,
  verdictOf,
} from '../charts/index.ts';
import { aimNamed, makeWindowOf, nameAim, SPEEDS, type Speed } from '../table/index.ts';

/**
 * @param pattern its target is a pocket
 * @param numbers unrounded, in the chart's naming; null where there is none
 */
export function verdictAt(
  { setting, naming }: Chart,
  pattern: Pattern,
  start: Decimal,
  numbers: Readonly<Record<Speed, number | null>>,
): Verdict {
  const from = toNumber(start);
  const windows = SPEEDS.map((speed) => {
    const number = numbers[speed];
    if (number === null) return null;
    const launch = { ...pattern.stroke, speed: setting.condition.speeds[speed] };
    const through = aimNamed(setting.table, pattern, from, number, naming);
    const window = makeWindowOf(setting, pattern, from, launch, through);
    const named = (aim: number) => nameAim(setting.table, pattern, from, aim, naming);
    return window && { from: named(window.from), to: named(window.to) };
  });
  const [soft = null, medium = null, firm = null] = windows;
  return verdictOf({ soft, medium, firm });
}
