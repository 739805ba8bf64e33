/** What the ball does when a line is played with a given number: for pictures and for words. */

import {
  aimOf,
  arrivalCount,
  type Ball,
  ballOnLine,
  diamondLength,
  diamondOf,
  type Flight,
  missAlong,
  type PocketName,
  type Point,
  passCushions,
  playLine,
  pocketInRail,
  pocketTips,
  type Rail,
  type Route,
  runToAnyRail,
  type Setting,
  type Stretch,
  sightAt,
  type Table,
  targetEdge,
} from '../table/index.ts';

/**
 * `clean`: the whole ball passes between the tips. `tip`: it touches one. `wide`: it passes the
 * mouth altogether. `early`: it drops into another pocket on the way. `short of it`: it never gets
 * to the target. Tips are taken as points; whether a ball that touches one drops is not said here.
 */
export type Fate = 'clean' | 'tip' | 'wide' | 'early' | 'short of it';

export interface Replay {
  readonly fate: Fate;
  /** The path to draw. */
  readonly stretches: readonly Stretch[];
  /** Where the ball's centre is at the end of the path. */
  readonly end: Point;
  /** Metres beside the middle of the target, along its mouth; positive is long, negative short. */
  readonly miss: number | null;
  /** Where a ball that goes wide reaches a rail, in the rail's count. */
  readonly arrival: { readonly rail: Rail; readonly diamond: number } | null;
  readonly pocket: PocketName | null;
  /** The path meets the mouth so flat that no ball fits between the tips: a kick, not a bank. */
  readonly tooFlat: boolean;
}

/** @param speed metres per second */
export function replay(
  setting: Setting,
  route: Route,
  start: number,
  aim: number,
  speed: number,
): Replay {
  const ball = ballOnLine(setting, route, start, aim, { speed });
  const flight = playLine(setting, route, start, aim, { speed });
  const sight = sightAt(setting.table, route.aim, aim);
  if (!ball || !flight || !onTable(setting.table, ball)) {
    return {
      ...nowhere,
      fate: 'early',
      end: sight,
      pocket: pocketInRail(setting.table, route.aim.rail, sight),
    };
  }
  const early = flight.touches.find((touch) => pocketInRail(setting.table, touch.rail, touch.at));
  if (early) return dropsEarly(setting, flight, early);
  if (!flight.arrived) return goesWide(setting, route, ball, null);
  const miss = longBy(setting, route, flight);
  const { half, reach } = opening(setting, route, flight);
  if (Math.abs(miss) - reach >= half) return goesWide(setting, route, ball, miss);
  const fate = Math.abs(miss) + reach <= half ? 'clean' : 'tip';
  const { stretches, end } = flight;
  return { ...nowhere, fate, stretches, end, miss, tooFlat: reach > half };
}

/** A line so close to its rail that the ball would have to start inside the next one. */
function onTable(table: Table, at: Point): boolean {
  const r = table.ballRadius * (1 - 1e-9);
  return at.x >= r && at.x <= table.length - r && at.y >= r && at.y <= table.width - r;
}

const nowhere: Replay = {
  fate: 'short of it',
  stretches: [],
  end: { x: 0, y: 0 },
  miss: null,
  arrival: null,
  pocket: null,
  tooFlat: false,
};

function dropsEarly(setting: Setting, flight: Flight, touch: Flight['touches'][number]): Replay {
  // The path up to the touch: stretches end where the next begins, so cut where it turns back.
  const last = flight.stretches.findIndex((stretch) => samePoint(endOf(stretch), touch.at));
  return {
    ...nowhere,
    fate: 'early',
    stretches: flight.stretches.slice(0, last + 1),
    end: touch.at,
    pocket: pocketInRail(setting.table, touch.rail, touch.at),
  };
}

function goesWide(setting: Setting, route: Route, ball: Ball, miss: number | null): Replay {
  const passage = passCushions(setting, ball, route.cushions);
  if (!passage.ball) return { ...nowhere, stretches: passage.stretches, end: passage.end };
  const free = runToAnyRail(setting, passage.ball);
  const stretches = [...passage.stretches, ...free.stretches];
  if (!free.rail) return { ...nowhere, stretches, end: free.at };
  const count = arrivalCount(route.target, free.rail);
  const diamond = diamondOf(setting.table, count, free.at);
  return {
    ...nowhere,
    fate: 'wide',
    stretches,
    end: free.at,
    miss,
    arrival: { rail: free.rail, diamond },
  };
}

/** Distance along the mouth from its middle; positive on the side of a wider angle off the cushion. */
function longBy(setting: Setting, route: Route, flight: Flight): number {
  const { table } = setting;
  const { end, touches } = flight;
  const last = touches[touches.length - 1];
  const target = aimOf(table, route.target);
  const beside = missAlong(target, end);
  if (!last) return beside;
  const { goal } = target;
  // Along the last cushion, the way the ball went: on that side of the target a path is long.
  const before = touches[touches.length - 2]?.at ?? flight.stretches[0]?.ball ?? last.at;
  const along = last.rail === 'left' || last.rail === 'right' ? { x: 1, y: 0 } : { x: 0, y: 1 };
  const way = Math.sign(along.x * (last.at.x - before.x) + along.y * (last.at.y - before.y));
  const speed = Math.hypot(end.vx, end.vy);
  const d = { x: end.vx / speed, y: end.vy / speed };
  const forward = way * (along.x * d.x + along.y * d.y);
  const side = { x: way * along.x - forward * d.x, y: way * along.y - forward * d.y };
  const long = side.x * (end.x - goal.x) + side.y * (end.y - goal.y);
  return Math.sign(long) * Math.abs(beside);
}

/** Half the target's opening, and how much of it the ball's own half-width takes up, metres. */
function opening(setting: Setting, route: Route, flight: Flight): { half: number; reach: number } {
  const { table } = setting;
  // A point on a rail is hit when the ball covers it: its full width either way.
  if (route.target.kind === 'rail') return { half: 2 * table.ballRadius, reach: table.ballRadius };
  const [a, b] = pocketTips(table, route.target.pocket);
  const edge = targetEdge(table, route.target);
  const { vx, vy } = flight.end;
  const square = Math.abs(edge.nx * vx + edge.ny * vy) / Math.hypot(vx, vy);
  return { half: Math.hypot(a.x - b.x, a.y - b.y) / 2, reach: table.ballRadius / square };
}

function endOf(stretch: Stretch): Point {
  const { ball, ax, ay, duration: t } = stretch;
  return { x: ball.x + (ball.vx + (ax * t) / 2) * t, y: ball.y + (ball.vy + (ay * t) / 2) * t };
}

function samePoint(a: Point, b: Point): boolean {
  return Math.abs(a.x - b.x) + Math.abs(a.y - b.y) < 1e-9;
}

/** A length in long-rail diamonds; all diamonds of a 2:1 table are the same. */
export function inDiamonds(setting: Setting, metres: number): number {
  return metres / diamondLength(setting.table, 'left');
}
