/**
 * The rails beside a pocket, and how a miss is counted along them: in diamonds from the pocket,
 * long or short. All tables are twice as long as wide, so a diamond has the same length on every
 * rail.
 *
 * A pocket counts as closed. At a corner pocket, a long path meets the rail that is square to its
 * last cushion. A short path meets the rail that is parallel to that cushion. The count continues
 * around the corner.
 */

import {
  diamondLength,
  isLongRail,
  isSidePocket,
  outward,
  type PocketName,
  type Point,
  pocketPoint,
  type Rail,
  type Route,
  sightAt,
  type Table,
} from '../table/index.ts';

interface RailBeside {
  readonly rail: Rail;
  /** Unit vector along the rail, in the direction that counts as a positive miss. */
  readonly along: Point;
}

export interface Beside {
  readonly corner: boolean;
  /** The point from which a miss is counted. */
  readonly named: Point;
  readonly short: RailBeside;
  readonly long: RailBeside;
}

/** Returns the rails beside a route's pocket. A long path reaches `long`, a short one `short`. */
export function railsBeside(table: Table, route: Route, start: number): Beside {
  const { target } = route;
  if (target.kind !== 'pocket') throw new Error('a test shot is played at a pocket');
  const last = lastCushion(route);
  const isAlongLast = (rail: Rail) => isLongRail(rail) === isLongRail(last);
  const rails = railsOf(target.pocket).map((rail): RailBeside => {
    const along = isAlongLast(rail) ? directionAlongLast(table, route, start) : outward(last);
    return { rail, along };
  });
  const short = rails.find(({ rail }) => isAlongLast(rail)) ?? rails[0];
  const long = rails.find(({ rail }) => !isAlongLast(rail)) ?? rails[0];
  if (!short || !long) throw new Error(`no rail beside ${target.pocket}`);
  const named = pocketPoint(table, target.pocket);
  return { corner: rails.length === 2, named, short, long };
}

function lastCushion({ cushions }: Route): Rail {
  return cushions[cushions.length - 1] ?? cushions[0];
}

function railsOf(pocket: PocketName): readonly Rail[] {
  const [a, b] = pocket.split('-') as [Rail, Rail | 'side'];
  return b === 'side' ? [a] : [a, b];
}

/**
 * Returns the direction in which the ball travels along its last cushion: away from the cushion
 * before it, or, with one cushion, from the start to the pocket. It is the same rule as in
 * table/long.ts, which needs a played ball.
 */
function directionAlongLast(table: Table, route: Route, start: number): Point {
  const last = lastCushion(route);
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

/** Returns the miss of a ball at a point of a rail, in diamonds. */
export function missAt(table: Table, { named, corner }: Beside, along: Point, end: Point): number {
  const distance = along.x * (end.x - named.x) + along.y * (end.y - named.y);
  return corner ? cornerCount(table, distance) : distance / diamondOf(table);
}

/**
 * Returns the ball's center as the ball touches a rail beside the pocket, which is where a player
 * sees it arrive.
 */
export function arrivalPoint(table: Table, route: Route, start: number, miss: number): Point {
  const beside = railsBeside(table, route, start);
  const { rail, along } = miss > 0 ? beside.long : beside.short;
  const distance = beside.corner ? cornerDistance(table, miss) : miss * diamondOf(table);
  const into = outward(rail);
  const { x, y } = beside.named;
  const r = table.ballRadius;
  return { x: x + distance * along.x - r * into.x, y: y + distance * along.y - r * into.y };
}

/**
 * Returns the distance along the rail from the point that stands for a route's pocket to the
 * pocket's tip, in diamonds.
 */
export function openingOf(table: Table, { target }: Route): number {
  const side = target.kind === 'pocket' && isSidePocket(target.pocket);
  return (side ? table.sideMouth / 2 : cornerOpening(table)) / diamondOf(table);
}

/**
 * Returns the count, in diamonds, at a distance from a corner. A ball in a closed corner is one
 * radius from it along either rail, and a player never sees a ball touch a rail within the pocket
 * opening. So the count is stretched from the edge of the opening inward, so that it reaches 0 in
 * the corner. Outside the opening it is the plain distance.
 * @param distance meters along the rail from the corner
 */
function cornerCount(table: Table, distance: number): number {
  const [open, radius] = [cornerOpening(table), table.ballRadius];
  const far = Math.abs(distance);
  const count = far < open ? Math.max(0, ((far - radius) * open) / (open - radius)) : far;
  return (Math.sign(distance) * count) / diamondOf(table);
}

/** Inverts `cornerCount`: returns meters from the corner, at least the ball's radius. */
function cornerDistance(table: Table, miss: number): number {
  const [open, radius] = [cornerOpening(table), table.ballRadius];
  const count = Math.abs(miss) * diamondOf(table);
  const far = count < open ? radius + (count * (open - radius)) / open : count;
  return miss > 0 ? far : -far;
}

/**
 * Returns how far each tip is from the corner. The mouth is the hypotenuse, from tip to tip, of a
 * right triangle with equal legs.
 */
function cornerOpening({ cornerMouth }: Table): number {
  return cornerMouth / Math.SQRT2;
}

function diamondOf(table: Table): number {
  return diamondLength(table, 'left');
}
