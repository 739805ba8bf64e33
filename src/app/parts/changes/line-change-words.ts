/** Says how a printed number changes, for screen readers. Signs and arrows only serve the eye. */

import { type Decimal, formatDecimal, type LineChange, size } from '../../../charts/index.ts';
import type { Speed } from '../../../table/index.ts';

/**
 * Returns whether the printed number moves by more than the tolerance, whichever number the player
 * learned.
 */
export function isBeyond({ by }: LineChange, speed: Speed, tolerance: Decimal): boolean {
  return by !== null && size(by[speed]) > tolerance;
}

/** Returns words such as "was 4.9, is 5.1: 0.2 higher, more than 0.1". */
export function spokenChange(line: LineChange, speed: Speed, tolerance: Decimal): string {
  const { from, to, by } = line;
  const was = from && formatDecimal(from.numbers[speed].printed);
  const is = to && formatDecimal(to.numbers[speed].printed);
  if (by === null) return was === null ? `new: ${is}` : `leaves the chart, was ${was}`;
  const far = by[speed];
  if (far === 0) return `${is}, the same`;
  const how = `${formatDecimal(size(far))} ${far > 0 ? 'higher' : 'lower'}`;
  const beyond = isBeyond(line, speed, tolerance) ? `, more than ${formatDecimal(tolerance)}` : '';
  return `was ${was}, is ${is}: ${how}${beyond}`;
}

/** Returns a count such as "1 line" or "12 lines". */
export function counted(count: number): string {
  return `${count} ${count === 1 ? 'line' : 'lines'}`;
}
