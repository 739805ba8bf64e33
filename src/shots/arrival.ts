/**
 * Where a test shot arrives, as players say it: diamonds along the rail from the pocket, long or
 * short. All tables are twice as long as wide, so a diamond is the same length on every rail.
 *
 * A pocket is taken as shut. Off a corner a path that is long meets the rail square to its last
 * cushion, one that is short the rail along it; the count goes on round the corner.
 */

import type { PatternId } from '../charts/index.ts';
import {
  ballOnLine,
  continueFlight,
  diamondLength,
  isLongRail,
  isSidePocket,
  type Launch,
  onTable,
  outward,
  type Passage,
  type PocketName,
  type Point,
  passCushions,
  pocketPoint,
  type Rail,
  type Route,
  type Setting,
  type Speed,
  type Stroke,
  sightAt,
  type Table,
  touchEdge,
  touchInPocket,
} from '../table/index.ts';

/** One test shot at a real table. */
export interface TableShot {
  readonly pattern: PatternId;
  /** Diamonds. */
  readonly start: number;
  readonly speed: Speed;
  /** The number aimed at, diamonds, through the sight. */
  readonly aim: number;
  /** Diamonds along the rail it reached, + long, − short; null: made. */
  readonly miss: number | null;
}

/** A shot before it is played: a line, a number and a launch. */
export interface Try {
  readonly route: Route & { readonly stroke?: Stroke };
  readonly start: number;
  readonly aim: number;
  readonly speed: Speed;
}

/** What a shot is expected to do. */
export interface Arriving {
  /** Diamonds along the rail it reaches, long positive. */
  readonly miss: number;
  /** How far that moves for a diamond of aim. */
  readonly slope: number;
}

/** Diamonds of aim to either side by which a slope is told: the printed step of a chart. */
const BESIDE = 0.1;

/**
 * Where a shot arrives on a table that plays as the setting says, and how that moves with the aim.
 * Continuous in the aim, through the pocket too; its slope has a step where the rail turns a corner.
 * @returns null if the ball does not get to a rail beside its pocket, or is in another pocket first
 */
export function arrivingOf(setting: Setting, shot: Try): Arriving | null {
  const miss = missOf(setting, shot);
  if (miss === null) return null;
  const low = missOf(setting, { ...shot, aim: shot.aim - BESIDE });
  const high = missOf(setting, { ...shot, aim: shot.aim + BESIDE });
  const from = low ?? miss;
  const to = high ?? miss;
  const way = (low === null ? 0 : BESIDE) + (high === null ? 0 : BESIDE);
  return way === 0 ? null : { miss, slope: (to - from) / way };
}

/** The miss alone. */
export function missOf(setting: Setting, shot: Try): number | null {
  const passage = passageOf(setting, shot);
  if (!passage || touchInPocket(setting.table, passage.touches)) return null;
  const beside = railsBeside(setting.table, shot.route, shot.start);
  const ends = [beside.short, beside.long].flatMap(({ rail, along }) => {
    const flight = continueFlight(setting, passage, touchEdge(setting.table, rail));
    const time = flight.stretches.reduce((sum, { duration }) => sum + duration, 0);
    return flight.arrived ? [{ along, time, end: flight.end }] : [];
  });
  const first = ends.sort((a, b) => a.time - b.time)[0];
  if (!first) return null;
  const { named, diamond } = beside;
  const way = first.along.x * (first.end.x - named.x) + first.along.y * (first.end.y - named.y);
  return beside.corner ? squeezed(setting.table, way) : way / diamond;
}

/** The ball of a shot as it comes off its last cushion; null if there is no such line. */
export function passageOf(setting: Setting, shot: Try): Passage | null {
  const ball = ballOnLine(setting, shot.route, shot.start, shot.aim, launchAt(setting, shot));
  if (!ball || !onTable(setting.table, ball)) return null;
  const passage = passCushions(setting, ball, shot.route.cushions);
  return passage.ball ? passage : null;
}

export function launchAt({ condition }: Setting, { route, speed }: Try): Launch {
  return { ...route.stroke, speed: condition.speeds[speed] };
}

/** The ball's centre as it touches a rail beside the pocket, where a player says it arrived. */
export function arrivalPoint(table: Table, { route, start }: Try, miss: number): Point {
  const beside = railsBeside(table, route, start);
  const { rail, along } = miss > 0 ? beside.long : beside.short;
  const way = beside.corner ? unsqueezed(table, miss) : miss * beside.diamond;
  const into = outward(rail);
  const { x, y } = beside.named;
  const r = table.ballRadius;
  return { x: x + way * along.x - r * into.x, y: y + way * along.y - r * into.y };
}

interface RailBeside {
  readonly rail: Rail;
  /** Unit vector along the rail, the way in which a miss grows. */
  readonly along: Point;
}

interface Beside {
  readonly corner: boolean;
  /** The point from which a miss is counted. */
  readonly named: Point;
  readonly diamond: number;
  readonly short: RailBeside;
  readonly long: RailBeside;
}

/** The rails that adjoin a pocket, and which of them is reached by a path that is long. */
export function railsBeside(table: Table, route: Route, start: number): Beside {
  const { target } = route;
  if (target.kind !== 'pocket') throw new Error('a test shot is played at a pocket');
  const named = pocketPoint(table, target.pocket);
  const last = route.cushions[route.cushions.length - 1] ?? route.cushions[0];
  const rails = railsOf(target.pocket).map((rail): RailBeside => {
    const along =
      isLongRail(rail) === isLongRail(last) ? wayOf(table, route, start) : outward(last);
    return { rail, along };
  });
  const short = rails.find(({ rail }) => isLongRail(rail) === isLongRail(last)) ?? rails[0];
  const long = rails.find(({ rail }) => isLongRail(rail) !== isLongRail(last)) ?? rails[0];
  if (!short || !long) throw new Error(`no rail beside ${target.pocket}`);
  return { corner: rails.length === 2, named, diamond: diamondLength(table, 'left'), short, long };
}

function railsOf(pocket: PocketName): readonly Rail[] {
  const [a, b] = pocket.split('-') as [Rail, Rail | 'side'];
  return b === 'side' ? [a] : [a, b];
}

/**
 * The way the ball goes along its last cushion: away from the cushion before it, and off one cushion
 * from the start to the pocket (table/long.ts says the same of a ball that has been played).
 */
function wayOf(table: Table, route: Route, start: number): Point {
  const last = route.cushions[route.cushions.length - 1] ?? route.cushions[0];
  const before = route.cushions[route.cushions.length - 2];
  if (before && isLongRail(before) !== isLongRail(last)) {
    const { x, y } = outward(before);
    return { x: -x, y: -y };
  }
  const from = sightAt(table, route.start, start);
  const to = route.target.kind === 'pocket' ? pocketPoint(table, route.target.pocket) : from;
  return isLongRail(last)
    ? { x: Math.sign(to.x - from.x), y: 0 }
    : { x: 0, y: Math.sign(to.y - from.y) };
}

/**
 * A ball in a shut corner stands one radius from it on either rail, and nobody ever sees one touch a
 * rail within the opening. So from the opening's edge inwards the count is stretched until it is 0 in
 * the corner; outside it is the plain count.
 * @param way metres along the rail from the corner
 */
function squeezed(table: Table, way: number): number {
  const { open, radius, diamond } = cornerOf(table);
  const far = Math.abs(way);
  const count = far < open ? Math.max(0, ((far - radius) * open) / (open - radius)) : far;
  return (Math.sign(way) * count) / diamond;
}

/** The inverse: metres from the corner, at least the ball's radius. */
function unsqueezed(table: Table, miss: number): number {
  const { open, radius, diamond } = cornerOf(table);
  const count = Math.abs(miss) * diamond;
  const far = count < open ? radius + (count * (open - radius)) / open : count;
  return miss > 0 ? far : -far;
}

function cornerOf(table: Table) {
  return {
    // The mouth is tip to tip across the corner; each tip is a leg of that triangle from it.
    open: table.cornerMouth / Math.SQRT2,
    radius: table.ballRadius,
    diamond: diamondLength(table, 'left'),
  };
}

/**
 * What was seen less what is expected, diamonds along the rail; of a made shot, by how much the ball
 * would have passed the opening. Null if it does not get there.
 */
export function leftAt(setting: Setting, shot: Try, seen: number | null): number | null {
  const expected = missOf(setting, shot);
  if (expected === null) return null;
  if (seen !== null) return seen - expected;
  const open = openingOf(setting.table, shot.route);
  return -Math.sign(expected) * Math.max(0, Math.abs(expected) - open);
}

/** From the point that names a pocket to its tip along the rail, diamonds. */
function openingOf(table: Table, { target }: Route): number {
  const side = target.kind === 'pocket' && isSidePocket(target.pocket);
  const { open, diamond } = cornerOf(table);
  return (side ? table.sideMouth / 2 : open) / diamond;
}
