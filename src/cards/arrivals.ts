/**
 * Questions that ask where a ball arrives for a given aim. The ball arrives between two targets
 * with numbers that the player knows, so the player can work the place out.
 */

import {
  type Decimal,
  monotoneCubic,
  numberTo,
  roundTo,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import { aimNamed, type Count, divisions, type Speed } from '../table/index.ts';
import type { Asker } from './asker.ts';
import { betweensIn, measuredTruth, placesOf } from './balls.ts';
import type { SkillCard } from './card.ts';
import { kickAt } from './kick.ts';
import type { Between } from './known.ts';
import { landsAt } from './landing.ts';
import type { ArrivalQuestion } from './question.ts';

/** The tolerance of an arrival is this many times the tolerance of a number. */
const ARRIVAL_FACTOR = 2.5;

export function arrivals(
  asker: Asker,
  card: SkillCard,
  speed: Speed,
): readonly (() => ArrivalQuestion | null)[] {
  return placesOf(betweensIn(asker, card, speed)).map(
    ({ between, at }) =>
      () =>
        arrival(asker, between, at, speed),
  );
}

function arrival(
  { chart, tolerance }: Asker,
  { pattern, start, count, known }: Between,
  at: Decimal,
  speed: Speed,
): ArrivalQuestion | null {
  const kick = kickAt(chart.setting.table, pattern, { count, at });
  const measured = measuredTruth(chart, { known }, at);
  const number = measured ?? numberTo(chart, kick, start, speed);
  if (number === null) return null;
  const aim = roundTo(number, chart.document.printStep);
  const named = toNumber(aim);
  const through = aimNamed(chart.setting.table, kick, toNumber(start), named, chart.naming);
  // The model does not play measured lines, so without a measured place there is no question.
  const place =
    measured === null ? landsAt(chart, kick, start, through, speed) : backwards(known, aim);
  if (place === null || !isInside(place, count, known)) return null;
  const within = Math.round(ARRIVAL_FACTOR * tolerance) as Decimal;
  const given = { pattern, start, speed, tolerance: within, aim, count, known };
  return { kind: 'arrival', ...given, truth: [toDecimal(place)] };
}

/** Returns the place for a number by reading a measured chart backward. */
function backwards(known: ArrivalQuestion['known'], aim: Decimal): number | null {
  const points = known.map((one) => ({ x: one.exact, y: toNumber(one.at) }));
  const [low, high] = points.sort((a, b) => a.x - b.x) as [(typeof points)[0], (typeof points)[0]];
  return low.x < high.x ? monotoneCubic([low, high])(toNumber(aim)) : null;
}

/** Returns whether a place is on the rail and between the known targets. */
function isInside(place: number, { rail }: Count, known: ArrivalQuestion['known']): boolean {
  if (place < 0 || place > divisions(rail)) return false;
  return known[0].at <= toDecimal(place) && toDecimal(place) <= known[1].at;
}
