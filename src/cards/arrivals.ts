/** Where a ball arrives for a given aim. */

import {
  type Decimal,
  isMeasured,
  monotoneCubic,
  numberTo,
  patternOf,
  roundTo,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import { aimNamed, type Count, divisions, type Speed } from '../table/index.ts';
import type { Asker } from './asker.ts';
import { betweensIn, measuredTruth, placesOf } from './balls.ts';
import type { SkillCard } from './card.ts';
import { multiplesBetween } from './dice.ts';
import { kickAt } from './kick.ts';
import { countOn, type Known, startsInPocket } from './known.ts';
import { landsAt } from './landing.ts';
import type { ArrivalQuestion } from './question.ts';
import { zoneOf } from './zone.ts';

const TENTH = toDecimal(0.1);
/** An arrival may be off by so much more than a number. */
const ARRIVAL_FACTOR = 2.5;

export function arrivals(
  asker: Asker,
  card: SkillCard,
  speed: Speed,
): readonly (() => ArrivalQuestion | null)[] {
  const places = arrivalPlaces(asker, card, speed);
  return places.map((place) => () => arrival(asker, card, place, speed));
}

function arrival(
  { chart, tolerance }: Asker,
  { pattern }: SkillCard,
  { start, count, at, known }: ArrivalPlace,
  speed: Speed,
): ArrivalQuestion | null {
  const kick = kickAt(chart.setting.table, pattern, { count, at });
  const measured = known && measuredTruth(chart, { known }, at);
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

interface ArrivalPlace {
  readonly start: Decimal;
  readonly count: Count;
  readonly at: Decimal;
  readonly known: readonly [Known, Known] | null;
}

/** Where an arrival can be asked for: between known targets if there are two, else all over. */
function arrivalPlaces(asker: Asker, card: SkillCard, speed: Speed): readonly ArrivalPlace[] {
  const { chart } = asker;
  const pattern = patternOf(card.pattern);
  const betweens = betweensIn(asker, card, speed);
  if (betweens.length > 0 || isMeasured(chart, card.pattern)) {
    return placesOf(betweens).map(({ between, at }) => ({ ...between, at }));
  }
  const count = countOn(pattern, pattern.kicks.rail);
  const ends = [toDecimal(0), toDecimal(divisions(count.rail))] as const;
  const { met = () => true } = asker;
  return chart.lines
    .filter((line) => line.pattern === card.pattern && met(line))
    .filter(({ start }) => !startsInPocket(chart, card.pattern, start))
    .filter((line) => zoneOf(pattern, line.start) === card.zone)
    .flatMap(({ start }) =>
      multiplesBetween(...ends, TENTH).map((at) => ({ start, count, at, known: null })),
    );
}

/** The measured chart read the other way: from a number to the place. */
function backwards(known: ArrivalPlace['known'], aim: Decimal): number | null {
  if (!known) return null;
  const points = known.map((one) => ({ x: one.exact, y: toNumber(one.at) }));
  const [low, high] = points.sort((a, b) => a.x - b.x) as [(typeof points)[0], (typeof points)[0]];
  return low.x < high.x ? monotoneCubic([low, high])(toNumber(aim)) : null;
}

/** Not past a rail's end, and not past the known targets between which it can be worked out. */
function isInside(place: number, { rail }: Count, known: ArrivalQuestion['known']): boolean {
  if (place < 0 || place > divisions(rail)) return false;
  return !known || (known[0].at <= toDecimal(place) && toDecimal(place) <= known[1].at);
}
