/** Finds where a kick arrives if no ball is in its path. */

import { type Chart, type Decimal, launchOf, type Pattern, toNumber } from '../charts/index.ts';
import {
  diamondOf,
  type Flight,
  playLine,
  pocketInRail,
  type Speed,
  touchInPocket,
} from '../table/index.ts';

/**
 * Returns the diamond at which the ball touches the kick's rail; null if the ball does not get
 * there.
 */
export function landsAt(
  chart: Chart,
  kick: Pattern,
  start: Decimal,
  aim: number,
  speed: Speed,
): number | null {
  const { target } = kick;
  const { setting } = chart;
  if (target.kind !== 'rail') throw new Error(`${kick.id} is played at a pocket`);
  const flight = playLine(setting, kick, toNumber(start), aim, launchOf(chart, kick, speed));
  if (!flight?.arrived || !staysOnTable(setting.table, flight)) return null;
  if (pocketInRail(setting.table, target.count.rail, flight.end)) return null;
  return diamondOf(setting.table, target.count, flight.end);
}

function staysOnTable(table: Chart['setting']['table'], { touches, end }: Flight): boolean {
  const { length, width, ballRadius } = table;
  // This allows a micrometer for rounding, because the ball's last place is exactly on the edge of
  // the rail where it arrives.
  const r = ballRadius - 1e-6;
  const inside = end.x >= r && end.x <= length - r && end.y >= r && end.y <= width - r;
  return inside && !touchInPocket(table, touches);
}
