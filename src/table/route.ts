/**
 * The shape of a line, and the edge that its ball has to cross at the right place.
 */

import {
  type Count,
  type Edge,
  type Mirror,
  mirrorCount,
  mirrorPocket,
  mirrorRail,
  mouthEdge,
  outward,
  type PocketName,
  type Point,
  pocketMouth,
  pointAt,
  type Rail,
  type Table,
  touchEdge,
} from './geometry.ts';

/** Where a line is to end: a pocket's mouth, or a point of a rail by its count. */
export type Target =
  | { readonly kind: 'pocket'; readonly pocket: PocketName }
  | { readonly kind: 'rail'; readonly count: Count; readonly diamond: number };

export interface Route {
  /** The count in which the start diamond is given. */
  readonly start: Count;
  /** The count, on the first cushion, of the aim-through number. */
  readonly aim: Count;
  /** The cushions in the order in which the ball touches them. */
  readonly cushions: readonly [Rail, ...Rail[]];
  readonly target: Target;
}

/** The same route in another of the table's four pictures; its numbers are the same. */
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

/** A pocket is reached across its mouth, a rail point when the ball touches the rail. */
export function targetEdge(table: Table, target: Target): Edge {
  return target.kind === 'pocket'
    ? mouthEdge(table, target.pocket)
    : touchEdge(table, target.count.rail);
}

/** Where the ball's centre should cross the target's edge. */
export function targetPoint(table: Table, target: Target): Point {
  return target.kind === 'pocket'
    ? pocketMouth(table, target.pocket)
    : pointAt(table, target.count, target.diamond, -table.ballRadius);
}

/** A target on a table, worked out once for many crossings. */
export interface Aim {
  readonly edge: Edge;
  readonly goal: Point;
}

export function aimOf(table: Table, target: Target): Aim {
  return { edge: targetEdge(table, target), goal: targetPoint(table, target) };
}

/**
 * How far along the target's edge a crossing lies from the right place, metres. The sign runs with
 * the edge and is the same for all crossings of one target.
 */
export function missAlong({ edge, goal }: Aim, crossing: Point): number {
  return -edge.ny * (crossing.x - goal.x) + edge.nx * (crossing.y - goal.y);
}

/** The count by which an arrival on a rail is named; the target's own count on its own rail. */
export function arrivalCount(target: Target, rail: Rail): Count {
  if (target.kind === 'rail' && target.count.rail === rail) return target.count;
  const out = outward(rail);
  return { rail, from: out.x === 0 ? 'foot' : 'left' };
}
