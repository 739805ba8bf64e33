/** What the ball does when a line is played with a given number: for pictures and for words. */

import {
  type Arrival,
  arrivalCount,
  ballOnLine,
  type Count,
  diamondLength,
  diamondOf,
  type Flight,
  flyOn,
  type Hit,
  type HitOnWay,
  hitOnWay,
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
 * `clean`: it drops and touches nothing on the way in. `jaws`: it drops off a tip, a facing or the
 * cushion beside the pocket. `rattles out`: it is in the jaws and comes back. `hangs`: it stays in
 * them. `wide`: it passes the pocket altogether. `early`: it drops into another pocket on the way.
 * `short of it`: it never gets to the target. A kick that hits its ball is `clean`, one that misses it
 * `wide`.
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
  /** The path to draw; that of a kick ends where it hits. */
  readonly stretches: readonly Stretch[];
  /** Where the ball's centre is at the end of the path. */
  readonly end: Point;
  /**
   * Metres beside the middle of the target; positive is long, negative short. At a pocket along the
   * mouth for a ball that gets there, along the rail it arrives at for one that goes wide (null if the
   * pocket does not open in that rail). For a kick along the rail, from the ball it is sent to, where
   * the path crosses the target's edge or would if no ball stood there (null if not on the table).
   */
  readonly miss: number | null;
  /** How a kick hits its ball; null if it misses, or the target is a pocket. */
  readonly hit: Hit | null;
  /** Where a ball that goes wide reaches a rail, in the rail's count. */
  readonly arrival: { readonly count: Count; readonly diamond: number } | null;
  readonly pocket: PocketName | null;
  /** What it touched first of the pocket, or of the cushion beside it. */
  readonly touched: JawPart | null;
}

/** Does the ball end in the pocket, or at the mark, it was meant for. */
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
  const flight = flyOn(setting, passage, targetEdge(table, route.target));
  const free = runToAnyRail(setting, passage.ball);
  const { target } = route;
  if (target.kind === 'rail') {
    const met = hitOnWay(table, free.stretches, targetPoint(table, target));
    if (met) return hits(setting, route, flight, passage, met);
  } else {
    const run = runIntoPocket(setting, passage.ball, target.pocket, true);
    if (run.kind !== 'misses') return inPocket(setting, route, flight, run, passage);
  }
  return goesWide(setting, route, flight, [...passage.stretches, ...free.stretches], free);
}

function hits(
  setting: Setting,
  route: Route,
  flight: Flight,
  passage: Passage,
  { hit, stretches }: HitOnWay,
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

/** How far a kick would cross the target's edge from its ball, metres, long positive. */
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
  // Where it would have crossed the mouth's line; the jaws may have turned it before.
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
  // The path up to the touch: stretches end where the next begins, so cut where it turns back.
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

/** How far along the rail it arrives at a bank is from its pocket, metres, long positive. */
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
