/**
 * Where a ball arrives for a given aim: between two targets whose numbers are known, or there would
 * be nothing to work it out from.
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

/** An arrival may be off by so much more than a number. */
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
  // What is measured is not played: where it says nothing, nothing is asked.
  const place =
    measured === null ? landsAt(chart, kick, start, through, speed) : backwards(known, aim);
  if (place === null || !isInside(place, count, known)) return null;
  const within = Math.round(ARRIVAL_FACTOR * tolerance) as Decimal;
  const given = { pattern, start, speed, tolerance: within, aim, count, known };
  return { kind: 'arrival', ...given, truth: [toDecimal(place)] };
}

/** The measured chart read the other way: from a number to the place. */
function backwards(known: ArrivalQuestion['known'], aim: Decimal): number | null {
  const points = known.map((one) => ({ x: one.exact, y: toNumber(one.at) }));
  const [low, high] = points.sort((a, b) => a.x - b.x) as [(typeof points)[0], (typeof points)[0]];
  return low.x < high.x ? monotoneCubic([low, high])(toNumber(aim)) : null;
}

/** Not past a rail's end, and not past the known targets between which it can be worked out. */
function isInside(place: number, { rail }: Count, known: ArrivalQuestion['known']): boolean {
  if (place < 0 || place > divisions(rail)) return false;
  return known[0].at <= toDecimal(place) && toDecimal(place) <= known[1].at;
}
