/** Plays a line with a given number and tells what the ball does, for figures and words. */

import {
  type Arrival,
  arrivalCount,
  type Ball,
  ballOnLine,
  type Count,
  continueFlight,
  diamondLength,
  diamondOf,
  type Flight,
  type Hit,
  type HitOnPath,
  hitOnPath,
  type JawPart,
  type Launch,
  longBy,
  onTable,
  type Passage,
  type PocketName,
  type PocketRun,
  type Point,
  passCushions,
  pocketInRail,
  pocketPoint,
  pointAlong,
  type Route,
  runIntoPocket,
  runToAnyRail,
  type Setting,
  type Stretch,
  sightAt,
  type Touch,
  targetEdge,
  targetPoint,
  touchInPocket,
} from '../table/index.ts';

/**
 * `clean`: the ball drops without touching the pocket. `jaws`: it drops off a tip, a facing or the
 * cushion beside the pocket. `rattles out`: it enters the jaws and comes back out. `hangs`: it
 * stays in the jaws. `wide`: it misses the pocket. `early`: it drops into another pocket first.
 * `short of it`: it does not reach the target. A kick is `clean` if it hits its ball, and `wide` if
 * it misses.
 */
export const FATES = [
  'clean',
  'jaws',
  'rattles out',
  'hangs',
  'wide',
  'early',
  'short of it',
] as const;
export type Fate = (typeof FATES)[number];

export interface Replay {
  readonly fate: Fate;
  /** The path to draw. The path of a kick ends where it hits its ball. */
  readonly stretches: readonly Stretch[];
  /** The ball's center at the end of the path. */
  readonly end: Point;
  /**
   * How far the ball is from the middle of the target, in meters; positive if long, negative if
   * short. If the ball reaches its pocket, this is measured along the mouth. If it goes wide of the
   * pocket, it is measured along the rail where the ball arrives, and is null if the pocket does
   * not open in that rail. For a kick it is measured along the rail, from the target ball to where
   * the path crosses the target's edge or would cross it without the ball. It is null if that point
   * is off the table.
   */
  readonly miss: number | null;
  /** How a kick hits its ball; null if it misses it or the target is a pocket. */
  readonly hit: Hit | null;
  /** Where a ball that goes wide reaches a rail, as a diamond of that rail's count. */
  readonly arrival: { readonly count: Count; readonly diamond: number } | null;
  readonly pocket: PocketName | null;
  /** The part of the pocket, or of the cushion beside it, that the ball touched first. */
  readonly touched: JawPart | null;
}

/** Returns whether the ball drops into its pocket, or a kick hits its ball. */
export function isMade({ fate }: Replay): boolean {
  return fate === 'clean' || fate === 'jaws';
}

/**
 * Plays a line.
 * @param aim diamonds, through the sight
 */
export function replay(
  setting: Setting,
  route: Route,
  start: number,
  aim: number,
  launch: Launch,
): Replay {
  const { table } = setting;
  const ball = ballOnLine(setting, route, start, aim, launch);
  const sight = sightAt(table, route.aim, aim);
  if (!ball || !onTable(table, ball)) {
    return {
      ...nowhere,
      fate: 'early',
      end: sight,
      pocket: pocketInRail(table, route.aim.rail, sight),
    };
  }
  const passage = passCushions(setting, ball, route.cushions);
  const early = touchInPocket(table, passage.touches);
  if (early) return dropsEarly(setting, passage, early);
  if (!passage.ball) return { ...nowhere, stretches: passage.stretches, end: passage.end };
  return afterCushions(setting, route, passage, passage.ball);
}

function afterCushions(setting: Setting, route: Route, passage: Passage, ball: Ball): Replay {
  const { table } = setting;
  const { target } = route;
  const flight = continueFlight(setting, passage, targetEdge(table, target));
  const free = runToAnyRail(setting, ball);
  if (target.kind === 'rail') {
    const met = hitOnPath(table, free.stretches, targetPoint(table, target));
    if (met) return hits(setting, route, flight, passage, met);
  } else {
    const run = runIntoPocket(setting, ball, target.pocket, true);
    if (run.kind !== 'misses') return inPocket(setting, route, flight, run, passage);
  }
  return goesWide(setting, route, flight, [...passage.stretches, ...free.stretches], free);
}

function hits(
  setting: Setting,
  route: Route,
  flight: Flight,
  passage: Passage,
  { hit, stretches }: HitOnPath,
): Replay {
  return {
    ...nowhere,
    fate: 'clean',
    stretches: [...passage.stretches, ...stretches],
    end: hit.at,
    miss: besideBall(setting, route, flight),
    hit,
  };
}

/**
 * Returns the distance along the target's edge from a kick's ball to the kick's path, in meters;
 * positive if long.
 */
function besideBall(setting: Setting, route: Route, flight: Flight): number | null {
  const crosses = flight.arrived && onTable(setting.table, flight.end);
  return crosses ? longBy(setting.table, route, flight) : null;
}

const POCKET_FATES = {
  drops: 'clean',
  'comes out': 'rattles out',
  hangs: 'hangs',
  misses: 'wide',
} as const satisfies Record<PocketRun['kind'], Fate>;

function inPocket(
  setting: Setting,
  route: Route,
  flight: Flight,
  run: PocketRun,
  passage: Passage,
): Replay {
  const stretches = [...passage.stretches, ...run.stretches];
  const touched = run.touches[0]?.part ?? null;
  const fate = run.kind === 'drops' && touched ? 'jaws' : POCKET_FATES[run.kind];
  // The miss is where the path would cross the mouth's line if there were no jaws to deflect it.
  const miss = flight.arrived ? longBy(setting.table, route, flight) : null;
  return { ...nowhere, fate, stretches, end: run.end, miss, touched };
}

const nowhere: Replay = {
  fate: 'short of it',
  stretches: [],
  end: { x: 0, y: 0 },
  miss: null,
  hit: null,
  arrival: null,
  pocket: null,
  touched: null,
};

function dropsEarly(setting: Setting, passage: Passage, touch: Touch): Replay {
  // The path is cut at the touch, because a stretch ends where the next one begins.
  const last = passage.stretches.findIndex((stretch) =>
    samePoint(pointAlong(stretch, stretch.duration), touch.at),
  );
  return {
    ...nowhere,
    fate: 'early',
    stretches: passage.stretches.slice(0, last + 1),
    end: touch.at,
    pocket: pocketInRail(setting.table, touch.rail, touch.at),
  };
}

function goesWide(
  setting: Setting,
  route: Route,
  flight: Flight,
  stretches: readonly Stretch[],
  free: Arrival,
): Replay {
  if (!free.rail) return { ...nowhere, stretches, end: free.at };
  const { table } = setting;
  const other = pocketInRail(table, free.rail, free.at);
  if (other && !(route.target.kind === 'pocket' && route.target.pocket === other)) {
    return { ...nowhere, fate: 'early', stretches, end: free.at, pocket: other };
  }
  const count = arrivalCount(route.target, free.rail);
  const arrival = { count, diamond: diamondOf(table, count, free.at) };
  const miss =
    route.target.kind === 'rail'
      ? besideBall(setting, route, flight)
      : besidePocket(setting, route, flight, arrival, route.target.pocket);
  return { ...nowhere, fate: 'wide', stretches, end: free.at, miss, arrival };
}

/**
 * Returns the distance along the rail from a bank's pocket to where the ball arrives, in meters;
 * positive if long.
 */
function besidePocket(
  setting: Setting,
  route: Route,
  flight: Flight,
  { count, diamond }: NonNullable<Replay['arrival']>,
  pocket: PocketName,
): number | null {
  const { table } = setting;
  const named = pocketPoint(table, pocket);
  if (pocketInRail(table, count.rail, named) !== pocket) return null;
  const side = flight.arrived ? Math.sign(longBy(table, route, flight)) : 0;
  const far = Math.abs(diamond - diamondOf(table, count, named));
  return side === 0 ? null : side * far * diamondLength(table, count.rail);
}

function samePoint(a: Point, b: Point): boolean {
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y) < 1e-9;
}
