/**
 * The make window: the interval of aim numbers around a line's number that pockets the ball. Every
 * trial plays a whole shot, from the sight to the fall. The mouth's width decides only the steps of
 * the search.
 */

import { divisions, type PocketName, type Table } from './geometry.ts';
import { type PocketRun, runIntoPocket } from './jaws.ts';
import type { Ball } from './motion.ts';
import { NODE, type Passages, passagesAround, playToLastCushion } from './passages.ts';
import { pocketShape } from './pocket.ts';
import { missAlong, type Route, type TargetLine, targetLine } from './route.ts';
import { continueFlight, type Launch, type Setting } from './shot.ts';

/** The first and the last aim number that pockets the ball, in diamonds, unrounded. */
export interface MakeWindow {
  readonly from: number;
  readonly to: number;
}

/** Where and how finely to search, in diamonds. */
export interface WindowSearch {
  /**
   * The step of the search outward from a make. A gap or a group of makes narrower than this may be
   * missed.
   */
  readonly step: number;
  /** The distance between trials that look for a make when the number itself misses. */
  readonly stride: number;
  readonly low: number;
  readonly high: number;
}

/**
 * How exactly a window's ends are found, in diamonds: a fiftieth of the last printed decimal of a
 * number.
 */
const CLOSE = 0.002;
/** The search extends, on either side, until the arrival has moved by this many mouth widths. */
const MOUTHS = 1.5;
/** Steps of the search per expected half window. */
const STEPS = 6;

/**
 * Returns the unbroken interval of makes that contains the number. If the number itself misses, it
 * is the interval around the nearest make among trials `stride` apart. Its ends are accurate to
 * CLOSE.
 * @returns null if no trial drops
 */
export function makeWindow(
  drops: (aim: number) => boolean,
  number: number,
  search: WindowSearch,
): MakeWindow | null {
  const inside = drops(number) ? number : nearestMake(drops, number, search);
  if (inside === null) return null;
  const { step, low, high } = search;
  return {
    from: endOfMakes(drops, inside, -step, low),
    to: endOfMakes(drops, inside, step, high),
  };
}

/** Returns the make nearest to a number that misses, among trials on both sides of it. */
function nearestMake(
  drops: (aim: number) => boolean,
  number: number,
  { stride, low, high }: WindowSearch,
): number | null {
  for (let away = stride; number - away >= low || number + away <= high; away += stride) {
    if (number + away <= high && drops(number + away)) return number + away;
    if (number - away >= low && drops(number - away)) return number - away;
  }
  return null;
}

/** Steps from a make to the first miss or the bound, then bisects the last step. */
function endOfMakes(
  drops: (aim: number) => boolean,
  from: number,
  step: number,
  bound: number,
): number {
  const most = Math.max(0, (bound - from) / step);
  let made = 0;
  let missed = Math.min(1, most);
  while (missed > made && drops(from + missed * step)) {
    made = missed;
    missed = Math.min(made + 1, most);
  }
  while ((missed - made) * Math.abs(step) > CLOSE) {
    const middle = (made + missed) / 2;
    if (drops(from + middle * step)) made = middle;
    else missed = middle;
  }
  return from + made * step;
}

/**
 * Returns the make window of a line at one launch, on the route's own count, clipped to the rail. A
 * make off the nose beside the pocket counts, so a window may reach past the tip.
 *
 * The search is scaled to the half window that a ball clear of both tips would have: its step is a
 * sixth of that, its stride all of it. The ball that comes off the last cushion is a smooth
 * function of the aim, so it is interpolated (passages.ts). The run into the pocket is played in
 * every trial.
 * @param aim the line's number at that launch
 * @returns null if the target is a rail, the ball does not reach the pocket, or no trial drops
 */
export function makeWindowOf(
  setting: Setting,
  route: Route,
  start: number,
  launch: Launch,
  aim: number,
): MakeWindow | null {
  const { target } = route;
  if (target.kind !== 'pocket') return null;
  const passages = passagesAround(setting, route, start, launch, aim);
  const expected = expectedSize(setting, target.pocket, passages);
  if (!expected) return null;
  const drops = (number: number) => {
    const ball = passages.at(number);
    return ball !== null && runIntoPocket(setting, ball, target.pocket).kind === 'drops';
  };
  return makeWindow(drops, aim, {
    step: Math.max(CLOSE, expected.halfWindow / STEPS),
    stride: expected.halfWindow,
    low: Math.max(0, aim - MOUTHS * expected.mouth),
    high: Math.min(divisions(route.aim.rail), aim + MOUTHS * expected.mouth),
  });
}

/** Plays one line from its sight until the ball drops into its target pocket or leaves it. */
export function playIntoPocket(
  setting: Setting,
  route: Route,
  start: number,
  aim: number,
  launch: Launch,
  record = false,
): PocketRun | null {
  const { target } = route;
  if (target.kind !== 'pocket') return null;
  const ball = playToLastCushion(setting, route, start, aim, launch);
  return ball && runIntoPocket(setting, ball, target.pocket, record);
}

/**
 * `mouth`: how many diamonds of aim move the arrival by one mouth width. `halfWindow`: half the
 * make window that this suggests, in diamonds.
 */
interface ExpectedSize {
  readonly mouth: number;
  readonly halfWindow: number;
}

function expectedSize(
  setting: Setting,
  pocket: PocketName,
  passages: Passages,
): ExpectedSize | null {
  const { table } = setting;
  const { mouthWidth } = pocketShape(table, pocket);
  const target = targetLine(table, { kind: 'pocket', pocket });
  const here = crossing(setting, target, passages.node(0));
  const beside = crossing(setting, target, passages.node(passages.node(-1) ? -1 : 1));
  if (!here || !beside) return null;
  const moved = Math.abs(missAlong(target, beside) - missAlong(target, here));
  if (!(moved > 0)) return null;
  const mouth = (NODE * mouthWidth) / moved;
  const open = halfOpening(table, mouthWidth, target, here) / mouthWidth;
  return { mouth, halfWindow: mouth * open };
}

/** Returns half the part of the mouth that is open to a ball touching neither tip, in meters. */
function halfOpening(table: Table, mouthWidth: number, { edge }: TargetLine, ball: Ball): number {
  // The cosine of the angle between the path and straight in. Measured along the mouth, the ball is
  // wider by one over this.
  const straight = (edge.nx * ball.vx + edge.ny * ball.vy) / Math.sqrt(ball.vx ** 2 + ball.vy ** 2);
  const clear = (mouthWidth - (2 * table.ballRadius) / straight) / 2;
  // A steep ball has less room than this minimum, or none, but the facings may still guide it in.
  return Math.max(clear, (mouthWidth - 2 * table.ballRadius) / 6);
}

/** Returns the ball as it crosses the target's edge; null if it does not. */
function crossing(setting: Setting, target: TargetLine, ball: Ball | null): Ball | null {
  if (!ball) return null;
  const passage = { stretches: [], touches: [], ball, end: ball };
  const flight = continueFlight(setting, passage, target.edge);
  return flight.arrived ? flight.end : null;
}
