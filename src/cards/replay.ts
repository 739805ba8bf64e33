/** What the ball does if a line is played with a given number, for figures and words. */

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
 * cushion beside the pocket. `rattles out`: it enters the jaws and comes back out. `hangs`: it stays
 * in the jaws. `wide`: it misses the pocket. `early`: it drops into another pocket first. `short of
 * it`: it does not reach the target. A kick is `clean` if it hits its ball, `wide` if it misses.
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
  /** The path to draw. A kick's path ends where it hits. */
  readonly stretches: readonly Stretch[];
  /** The ball's center at the end of the path. */
  readonly end: Point;
  /**
   * Meters from the middle of the target; positive is long, negative short. For a ball that reaches
   * its pocket, along the mouth; for one that goes wide, along the rail where it arrives (null if the
   * pocket does not open in that rail). For a kick, along the rail from its ball to where the path
   * crosses the target's edge, or would without the ball (null if that is off the table).
   */
  readonly miss: number | null;
  /** How a kick hits its ball; null if it misses, or the target is a pocket. */
  readonly hit: Hit | null;
  /** Where a ball that goes wide reaches a rail. */
  readonly arrival: { readonly count: Count; readonly diamond: number } | null;
  readonly pocket: PocketName | null;
  /** The part of the pocket, or of the cushion beside it, that the ball touched first. */
  readonly touched: JawPart | null;
}

/** Does the ball end in its pocket, or hit its ball. */
export function isMade({ fate }: Replay): boolean {
  return fate === 'clean' || fate === 'jaws';
}

/** @param aim diamonds, through the sight */
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

/** Meters along the target's edge from a kick's ball to its path, long positive. */
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
  // Where the path crosses the mouth's line without jaws, which may deflect it before.
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
  // Cuts the path at the touch: a stretch ends where the next one begins.
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

/** Meters along the rail from a bank's pocket to where the ball arrives, long positive. */
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
