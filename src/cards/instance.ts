/**
 * Fresh instances of the skills: a start, a ball or an aim that no chart prints, with the one right
 * answer. What could be asked is listed and shuffled by a seed, and the first that can be played is
 * taken, so that a seed always gives the same question and none is given up too soon.
 */

import {
  type AnchorNumber,
  anchorBound,
  anchorNumbers,
  anchorsOf,
  type Chart,
  type Decimal,
  interpolate,
  isMeasured,
  type Line,
  launchOf,
  monotoneCubic,
  numberAt,
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
  type Count,
  diamondOf,
  divisions,
  type Flight,
  hitHalfWidth,
  nameAim,
  passCushions,
  playLine,
  pocketInRail,
  type Speed,
  strikesFirst,
  targetPoint,
  touchInPocket,
} from '../table/index.ts';
import type { SkillCard } from './card.ts';
import { createDice, type Dice, multiplesBetween } from './dice.ts';
import { kickAt } from './kick.ts';
import { type Between, betweensOf, countOn, type Known, startsInPocket } from './known.ts';
import type {
  ArrivalQuestion,
  BetweenQuestion,
  OffRailQuestion,
  Question,
  RailBallQuestion,
} from './question.ts';
import { replay } from './replay.ts';
import { zoneBounds, zoneOf } from './zone.ts';

/** What a question is made from. */
export interface Asker {
  readonly chart: Chart;
  /** The tolerance in force. */
  readonly tolerance: Decimal;
  /** The speeds at which skills are asked. */
  readonly speeds: readonly Speed[];
  /** Lines that a skill may be worked out from; all of the chart's if it is left out. */
  readonly met?: (line: Line) => boolean;
}

const TENTH = toDecimal(0.1);
/** A ball this near a known target, or nearer, is no question, diamonds. */
const NEAR = toDecimal(0.2);
/** How far a ball off the rail stands from it, diamonds. */
const OFF = [0.5, 1, 1.5].map(toDecimal);
/** A number that is right hits the ball full; what is less is a start or a way that is none. */
const FULL = 0.99;
/** An arrival may be off by so much more than a number. */
const ARRIVAL_FACTOR = 2.5;

/** @returns null if the chart has nothing of that kind in the zone */
export function instanceOf(asker: Asker, card: SkillCard, seed: number): Question | null {
  const dice = createDice(seed);
  const speed = dice.pick(asker.speeds);
  switch (card.kind) {
    case 'in between':
      return inBetween(asker, card, speed, dice);
    case 'arrival':
      return arrival(asker, card, speed, dice);
    case 'rail ball':
      return railBall(asker, card, speed, dice);
    case 'off the rail':
      return offTheRail(asker, card, speed, dice);
  }
}

function firstOf<T, Q>(dice: Dice, places: readonly T[], ask: (place: T) => Q | null): Q | null {
  for (const place of dice.shuffle(places)) {
    const question = ask(place);
    if (question) return question;
  }
  return null;
}

function inBetween(
  { chart, tolerance, met = () => true }: Asker,
  { pattern, zone }: SkillCard,
  speed: Speed,
  dice: Dice,
): BetweenQuestion | null {
  const lines = chart.lines.filter((line) => line.pattern === pattern);
  const anchors = anchorNumbers(lines, anchorsOf(lines, anchorBound(tolerance)), speed);
  const unmet = new Set(lines.filter((line) => !met(line)).map((line) => line.start));
  const [from, to] = zoneBounds(patternOf(pattern), zone);
  const places = anchors.slice(1).flatMap((right, n) => {
    const left = anchors[n] as AnchorNumber;
    if (unmet.has(left.start) || unmet.has(right.start)) return [];
    return multiplesBetween(left.start, right.start, TENTH)
      .filter((start) => from <= start && start <= to && !startsInPocket(chart, pattern, start))
      .map((start) => ({ start, anchors: [left, right] as const }));
  });
  return firstOf(dice, places, ({ start, anchors: around }) => {
    const number = numberAt(chart, pattern, start, speed);
    if (number === null) return null;
    const truth = [toDecimal(number)] as const;
    return { kind: 'in between', pattern, start, speed, tolerance, anchors: around, truth };
  });
}

function betweensIn({ chart, met }: Asker, { pattern, zone }: SkillCard, speed: Speed) {
  return betweensOf(chart, pattern, speed).filter(
    ({ start, known }) =>
      zoneOf(patternOf(pattern), start) === zone &&
      known.every(({ line }) => line === null || !met || met(line)),
  );
}

function isClear(at: Decimal, known: readonly Known[]): boolean {
  return known.every((one) => Math.abs(one.at - at) > NEAR);
}

function placesOf(betweens: readonly Between[]) {
  return betweens.flatMap((between) =>
    multiplesBetween(between.known[0].at, between.known[1].at, TENTH)
      .filter((at) => isClear(at, between.known))
      .map((at) => ({ between, at })),
  );
}

function railBall(
  asker: Asker,
  card: SkillCard,
  speed: Speed,
  dice: Dice,
): RailBallQuestion | null {
  return firstOf(dice, placesOf(betweensIn(asker, card, speed)), ({ between, at }) => {
    const { pattern, start, count, known } = between;
    const kick = kickAt(asker.chart.setting.table, pattern, { count, at });
    const solved = kickNumber(asker, kick, between, speed);
    if (!solved) return null;
    const { number, tolerance } = solved;
    const truth = [toDecimal(measuredTruth(asker.chart, between, at) ?? number)] as const;
    return { kind: 'rail ball', pattern, start, speed, tolerance, count, at, known, truth };
  });
}

function offTheRail(
  asker: Asker,
  card: SkillCard,
  speed: Speed,
  dice: Dice,
): OffRailQuestion | null {
  const places = placesOf(betweensIn(asker, card, speed)).flatMap((place) =>
    OFF.map((off) => ({ ...place, off })),
  );
  return firstOf(dice, places, ({ between, at, off }) => {
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
  });
}

interface SolvedKick {
  /** In the chart's naming. */
  readonly number: number;
  /** Through the sight. */
  readonly aim: number;
  readonly tolerance: Decimal;
}

/** The number of a kick, with the tolerance that the ball allows; null if it cannot be played. */
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
  // Solved as if rails had no pockets in them and the ball could start in a corner: played, it hits.
  const hit = replay(setting, kick, from, aim, launch).hit;
  if (!hit || hit.fullness < FULL) return null;
  const most = plus(tolerance, tolerance);
  // Both namings count in diamonds of one rail, so no tolerance is more than twice as wide in one.
  const half = hitHalfWidth(setting, kick, from, launch, aim, 0, 2 * toNumber(most));
  const named = (through: number) => nameAim(setting.table, kick, from, through, naming);
  const allowed = toDecimal(Math.abs(named(aim + half) - named(aim)));
  const within = Math.min(most, Math.max(tolerance, allowed)) as Decimal;
  return { number, aim, tolerance: within };
}

/** By a measured chart's own numbers: its cubic through the known targets; else null. */
function measuredTruth(
  chart: Chart,
  { known }: Pick<Between, 'known'>,
  at: Decimal,
): number | null {
  const measured = known.some(({ line }) => line !== null && isMeasured(chart, line.pattern));
  if (!measured) return null;
  return monotoneCubic(known.map((one) => ({ x: toNumber(one.at), y: one.exact })))(toNumber(at));
}

function arrival(asker: Asker, card: SkillCard, speed: Speed, dice: Dice): ArrivalQuestion | null {
  const { chart, tolerance } = asker;
  const { pattern } = card;
  const places = arrivalPlaces(asker, card, speed);
  return firstOf(dice, places, (asked) => {
    const { start, count, at, known } = asked;
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
    return {
      kind: 'arrival',
      pattern,
      start,
      speed,
      tolerance: Math.round(ARRIVAL_FACTOR * tolerance) as Decimal,
      aim,
      count,
      known,
      truth: [toDecimal(place)],
    };
  });
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

/** The diamond at which a kick's ball touches its rail; null if it does not, or not there first. */
function landsAt(
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
  // A hair of room, for the rail it arrives at is itself the edge.
  const r = ballRadius - 1e-6;
  const inside = end.x >= r && end.x <= length - r && end.y >= r && end.y <= width - r;
  return inside && !touchInPocket(table, touches);
}

/** By proportion between the known targets: what a player can work out. Null outside them. */
export function byProportion(known: readonly [Known, Known], at: Decimal): number | null {
  return interpolate(
    known.map((one) => ({ start: one.at, printed: one.printed })),
    at,
  );
}

/** The place by proportion between the known targets, for a number. Null outside them. */
export function placeByProportion(known: readonly [Known, Known], aim: Decimal): number | null {
  const anchors = known.map((one) => ({ start: one.printed, printed: one.at }));
  const [a, b] = anchors as [AnchorNumber, AnchorNumber];
  if (a.start === b.start) return null;
  return interpolate(a.start < b.start ? [a, b] : [b, a], aim);
}
