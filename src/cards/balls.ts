/**
 * Questions that ask how to kick to a ball, on a rail or off it, between two targets with known
 * numbers.
 */

import {
  type Chart,
  type Decimal,
  isMeasured,
  launchOf,
  monotoneCubic,
  numberTo,
  type Pattern,
  patternOf,
  plus,
  roundTo,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import {
  aimNamed,
  ballOnLine,
  divisions,
  hitHalfWidth,
  nameAim,
  passCushions,
  type Speed,
  strikesFirst,
  targetPoint,
} from '../table/index.ts';
import type { Asker } from './asker.ts';
import type { SkillCard } from './card.ts';
import { multiplesBetween } from './dice.ts';
import { kickAt } from './kick.ts';
import { type Between, betweensOf, type Known } from './known.ts';
import { landsAt } from './landing.ts';
import type { OffRailQuestion, RailBallQuestion } from './question.ts';
import { replay } from './replay.ts';
import { zoneOf } from './zone.ts';

const TENTH = toDecimal(0.1);
/** In diamonds. A ball this close to a known target is not asked. */
const NEAR = toDecimal(0.2);
/** The distances from the rail at which a ball off the rail is asked, in diamonds. */
const OFF = [0.5, 1, 1.5].map(toDecimal);
/**
 * The right number hits the ball full. If the fullness is below this, the start or the path is
 * impossible.
 */
const FULL = 0.99;

/** Returns the pairs of known targets, in a card's zone, that a skill may build on. */
export function betweensIn({ chart, met }: Asker, { pattern, zone }: SkillCard, speed: Speed) {
  return betweensOf(chart, pattern, speed).filter(
    ({ start, known }) =>
      zoneOf(patternOf(pattern), start) === zone &&
      known.every(({ line }) => line === null || !met || met(line)),
  );
}

function isClear(at: Decimal, known: readonly Known[]): boolean {
  return known.every((one) => Math.abs(one.at - at) > NEAR);
}

/** Returns the places between known targets that are far enough from both. */
export function placesOf(betweens: readonly Between[]) {
  return betweens.flatMap((between) =>
    multiplesBetween(between.known[0].at, between.known[1].at, TENTH)
      .filter((at) => isClear(at, between.known))
      .map((at) => ({ between, at })),
  );
}

export function ballsOnTheRail(
  asker: Asker,
  card: SkillCard,
  speed: Speed,
): readonly (() => RailBallQuestion | null)[] {
  return placesOf(betweensIn(asker, card, speed)).map(({ between, at }) => () => {
    const { pattern, start, count, known } = between;
    const kick = kickAt(asker.chart.setting.table, pattern, { count, at });
    const solved = kickNumber(asker, kick, between, speed);
    if (!solved) return null;
    const { number, tolerance } = solved;
    const truth = [toDecimal(measuredTruth(asker.chart, between, at) ?? number)] as const;
    return { kind: 'rail ball', pattern, start, speed, tolerance, count, at, known, truth };
  });
}

export function ballsOffTheRail(
  asker: Asker,
  card: SkillCard,
  speed: Speed,
): readonly (() => OffRailQuestion | null)[] {
  return placesOf(betweensIn(asker, card, speed)).flatMap(({ between, at }) =>
    OFF.map((off) => () => offTheRail(asker, between, { at, off }, speed)),
  );
}

function offTheRail(
  asker: Asker,
  between: Between,
  { at, off }: { readonly at: Decimal; readonly off: Decimal },
  speed: Speed,
): OffRailQuestion | null {
  const { pattern, start, count, known } = between;
  const { table } = asker.chart.setting;
  const solved = kickNumber(asker, kickAt(table, pattern, { count, at, off }), between, speed);
  if (!solved) return null;
  const { number, tolerance, aim } = solved;
  const landed = landsAt(asker.chart, kickAt(table, pattern, { count, at }), start, aim, speed);
  if (landed === null) return null;
  const onRail = roundTo(landed, TENTH);
  if (!(known[0].at < onRail && onRail < known[1].at)) return null;
  const truth = [toDecimal(measuredTruth(asker.chart, between, onRail) ?? number)] as const;
  const place = { count, at, off, onRail, known, truth };
  return { kind: 'off the rail', pattern, start, speed, tolerance, ...place };
}

interface SolvedKick {
  /** The number in the chart's naming. */
  readonly number: number;
  /** The same number through the sight, in diamonds. */
  readonly aim: number;
  readonly tolerance: Decimal;
}

/**
 * Returns a kick's number, with the tolerance that the ball allows; null if the kick cannot be
 * played.
 */
function kickNumber(
  { chart, tolerance }: Asker,
  kick: Pattern,
  { start }: Between,
  speed: Speed,
): SolvedKick | null {
  const number = numberTo(chart, kick, start, speed);
  if (number === null || number < 0 || number > divisions(kick.aim.rail)) return null;
  const { setting, naming } = chart;
  const from = toNumber(start);
  const aim = aimNamed(setting.table, kick, from, number, naming);
  const launch = launchOf(chart, kick, speed);
  const ball = ballOnLine(setting, kick, from, aim, launch);
  if (!ball) return null;
  const before = passCushions(setting, ball, kick.cushions).stretches;
  if (strikesFirst(setting.table, before, targetPoint(setting.table, kick.target))) return null;
  // The solver ignores pockets in rails and lets balls start in corners. The replay does neither.
  const hit = replay(setting, kick, from, aim, launch).hit;
  if (!hit || hit.fullness < FULL) return null;
  const most = plus(tolerance, tolerance);
  // The search may reach twice the largest tolerance. Both namings count diamonds of the same rail,
  // so converting to the other naming never makes a tolerance more than twice as wide.
  const half = hitHalfWidth(setting, kick, from, launch, aim, 0, 2 * toNumber(most));
  const named = (through: number) => nameAim(setting.table, kick, from, through, naming);
  const allowed = toDecimal(Math.abs(named(aim + half) - named(aim)));
  const within = Math.min(most, Math.max(tolerance, allowed)) as Decimal;
  return { number, aim, tolerance: within };
}

/**
 * Returns the number for a place from the cubic through the known targets, if a line to one of them
 * is measured; else null.
 */
export function measuredTruth(
  chart: Chart,
  { known }: Pick<Between, 'known'>,
  at: Decimal,
): number | null {
  const measured = known.some(({ line }) => line !== null && isMeasured(chart, line.pattern));
  if (!measured) return null;
  return monotoneCubic(known.map((one) => ({ x: toNumber(one.at), y: one.exact })))(toNumber(at));
}
