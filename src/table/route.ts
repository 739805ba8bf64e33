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

/** Where a line is to end: a pocket's mouth, or a ball at a point of a rail by its count. */
export type Target = { readonly kind: 'pocket'; readonly pocket: PocketName } | RailTarget;

export interface RailTarget {
  readonly kind: 'rail';
  readonly count: Count;
  /** The diamond level with the centre of the ball that stands there. */
  readonly diamond: number;
  /**
   * From the rail's nose to that centre, metres; absent: one radius, a ball frozen to the rail. Within
   * about 0.2 m of the last cushion the solver may find no aim where there is one.
   */
  readonly off?: number;
}

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

/**
 * A pocket is reached across its mouth, a ball of a rail on the parallel to the nose through its
 * centre: at a frozen ball that is where the ball touches the rail.
 */
export function targetEdge(table: Table, target: Target): Edge {
  if (target.kind === 'pocket') return mouthEdge(table, target.pocket);
  const nose = noseEdge(table, target.count.rail);
  return { ...nose, offset: nose.offset - offNose(table, target) };
}

/** How far the centre of the ball at a rail target is from the nose, metres. */
function offNose(table: Table, { off = table.ballRadius }: RailTarget): number {
  return off;
}

/**
 * Does the target ask for a crossing (of its own edge) where a ball would be in a pocket. A ball
 * frozen to the rail, or pressed nearer, needs rail behind it, so no opening may be level with it.
 * One that stands off the rail stands on the cloth, before a side pocket too: only past the line of
 * a mouth, tip to tip, is it in a pocket.
 */
export function crossesInPocket(table: Table, target: RailTarget, crossing: Point): boolean {
  const pocket = pocketInRail(table, target.count.rail, crossing);
  if (!pocket || offNose(table, target) <= table.ballRadius) return pocket !== null;
  const { nx, ny, offset } = mouthEdge(table, pocket);
  return nx * crossing.x + ny * crossing.y > offset;
}

/** Where the ball's centre should cross the target's edge. */
export function targetPoint(table: Table, target: Target): Point {
  return target.kind === 'pocket'
    ? pocketMouth(table, target.pocket)
    : pointAt(table, target.count, target.diamond, -offNose(table, target));
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
