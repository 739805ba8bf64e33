/** The shape of a line, and the edge that its ball must cross at the right place. */

import {
  type Count,
  type Edge,
  type Mirror,
  mirrorCount,
  mirrorPocket,
  mirrorRail,
  mouthEdge,
  noseEdge,
  outward,
  type PocketName,
  type Point,
  pocketInRail,
  pocketMouth,
  pointAt,
  type Rail,
  type Table,
} from './geometry.ts';

/** Where a line ends: a pocket's mouth, or a ball at a rail, placed by the rail's count. */
export type Target = { readonly kind: 'pocket'; readonly pocket: PocketName } | RailTarget;

export interface RailTarget {
  readonly kind: 'rail';
  readonly count: Count;
  /** The diamond level with the ball's center. */
  readonly diamond: number;
  /**
   * The distance from the rail's nose to that center, in meters. The default is one radius: a ball
   * frozen to the rail. If the ball is within about 0.2 m of the last cushion, the solver may find
   * no aim although there is one.
   */
  readonly off?: number;
}

export interface Route {
  /** The count of the start diamond. */
  readonly start: Count;
  /** The count of the aim-through number, on the first cushion. */
  readonly aim: Count;
  /** The cushions in the order in which the ball touches them. */
  readonly cushions: readonly [Rail, ...Rail[]];
  readonly target: Target;
}

/** Returns the same route in another of the table's four pictures. Its numbers are the same. */
export function mirrorRoute(route: Route, mirror: Mirror): Route {
  const [first, ...rest] = route.cushions;
  return {
    start: mirrorCount(route.start, mirror),
    aim: mirrorCount(route.aim, mirror),
    cushions: [mirrorRail(first, mirror), ...rest.map((rail) => mirrorRail(rail, mirror))],
    target: mirrorTarget(route.target, mirror),
  };
}

function mirrorTarget(target: Target, mirror: Mirror): Target {
  if (target.kind === 'pocket') return { ...target, pocket: mirrorPocket(target.pocket, mirror) };
  return { ...target, count: mirrorCount(target.count, mirror) };
}

/**
 * Returns the edge that the ball must cross. For a pocket it is the mouth. For a target ball it is
 * the line parallel to the nose through that ball's center. If the target ball is frozen to the
 * rail, a moving ball crosses that line where it touches the rail itself.
 */
export function targetEdge(table: Table, target: Target): Edge {
  if (target.kind === 'pocket') return mouthEdge(table, target.pocket);
  const nose = noseEdge(table, target.count.rail);
  return { ...nose, offset: nose.offset - offNose(table, target) };
}

/** Returns the distance from the nose to the center of the target ball, in meters. */
function offNose(table: Table, { off = table.ballRadius }: RailTarget): number {
  return off;
}

/**
 * Returns whether a ball that crosses the target's edge here is in a pocket. A target ball that is
 * frozen to the rail, or nearer, needs rail behind it, so no pocket opening may be level with it. A
 * target ball off the rail is on the cloth, even in front of a side pocket. It is in a pocket only
 * past the line of the mouth, from tip to tip.
 */
export function crossesInPocket(table: Table, target: RailTarget, crossing: Point): boolean {
  const pocket = pocketInRail(table, target.count.rail, crossing);
  if (!pocket || offNose(table, target) <= table.ballRadius) return pocket !== null;
  const { nx, ny, offset } = mouthEdge(table, pocket);
  return nx * crossing.x + ny * crossing.y > offset;
}

/** Returns the point where the ball's center should cross the target's edge. */
export function targetPoint(table: Table, target: Target): Point {
  return target.kind === 'pocket'
    ? pocketMouth(table, target.pocket)
    : pointAt(table, target.count, target.diamond, -offNose(table, target));
}

/** The edge that a ball must cross and the right place on it, computed once for many crossings. */
export interface TargetLine {
  readonly edge: Edge;
  readonly goal: Point;
}

export function targetLine(table: Table, target: Target): TargetLine {
  return { edge: targetEdge(table, target), goal: targetPoint(table, target) };
}

/**
 * Returns how far along the target's edge a crossing is from the right place, in meters. The sign
 * follows the direction of the edge, so it means the same for all crossings of one target.
 */
export function missAlong({ edge, goal }: TargetLine, crossing: Point): number {
  return -edge.ny * (crossing.x - goal.x) + edge.nx * (crossing.y - goal.y);
}

/**
 * Returns the count that names an arrival on a rail. On the target's rail it is the target's own
 * count.
 */
export function arrivalCount(target: Target, rail: Rail): Count {
  if (target.kind === 'rail' && target.count.rail === rail) return target.count;
  const out = outward(rail);
  return { rail, from: out.x === 0 ? 'foot' : 'left' };
}
