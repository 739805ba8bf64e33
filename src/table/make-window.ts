/**
 * The make window: the interval of aim numbers around a line's number that pockets the ball. Every
 * trial is a whole shot, from the sight to the fall; nothing is derived from the mouth's width but
 * the size of the steps.
 */

import { divisions, type PocketName } from './geometry.ts';
import { type PocketRun, runIntoPocket } from './jaws.ts';
import type { Ball } from './motion.ts';
import { NODE, type Passages, passagesAround, playToLastCushion } from './passages.ts';
import { pocketShape } from './pocket.ts';
import { missAlong, type Route, type TargetLine, targetLine } from './route.ts';
import { continueFlight, type Launch, type Setting } from './shot.ts';

/** Aim numbers, diamonds, unrounded. */
export interface MakeWindow {
  readonly from: number;
  readonly to: number;
}

/** Where to look, in diamonds. */
export interface WindowSearch {
  /** The march outwards. A hole or a run of makes narrower than this may not be seen. */
  readonly step: number;
  /** Between the trials of the search that is made when the number itself misses. */
  readonly stride: number;
  readonly low: number;
  readonly high: number;
}

/** Ends of a window are found to this, diamonds: a fiftieth of what a number is printed to. */
const CLOSE = 0.002;
/** A window is looked for as far as the arrival moves by this many mouths, to either side. */
const MOUTHS = 1.5;
/** Steps of the march per expected half window. */
const STEPS = 6;

/**
 * The unbroken interval of makes that contains the number; if the number itself misses, the one
 * around the nearest make among trials `stride` apart. Its ends are within CLOSE.
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

/** The make nearest to a number that misses, looked for on both hands in strides. */
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

/** Marches from a make until one misses or the bound is reached, then halves the last step. */
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
 * The make window of a line at one launch, on the route's own count, clipped to the rail.
 * A make by way of the nose beside the pocket counts, so a window may reach past the tip.
 * March 1/6 of the half window that the mouth would give a ball clear of both tips, search within
 * ±1.5 mouths of arrival in strides of one such half window, ends to 0.002 diamond. The ball that
 * comes off the last cushion is a smooth function of the aim: it is played at every 0.03 of a
 * diamond and put in between by a cubic (passages.ts); the pocket is played for every trial.
 * @param aim the line's number at that launch
 * @returns null if the target is a rail, the ball does not get to the pocket, or no trial drops
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
  const per = diamondsPerMouth(setting, target.pocket, passages);
  if (!per) return null;
  const drops = (number: number) => {
    const ball = passages.at(number);
    return ball !== null && runIntoPocket(setting, ball, target.pocket).kind === 'drops';
  };
  return makeWindow(drops, aim, {
    step: Math.max(CLOSE, (per.mouth * per.halfOpen) / STEPS),
    stride: per.mouth * per.halfOpen,
    low: Math.max(0, aim - MOUTHS * per.mouth),
    high: Math.min(divisions(route.aim.rail), aim + MOUTHS * per.mouth),
  });
}

/** One line, played from the sight until the ball has dropped or is gone from its target pocket. */
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

/** How much of aim moves the arrival by one mouth; and how much of the mouth is half a window. */
interface PerMouth {
  readonly mouth: number;
  readonly halfOpen: number;
}

function diamondsPerMouth(
  setting: Setting,
  pocket: PocketName,
  passages: Passages,
): PerMouth | null {
  const { mouthWidth } = pocketShape(setting.table, pocket);
  const goal = targetLine(setting.table, { kind: 'pocket', pocket });
  const here = crossing(setting, goal, passages.node(0));
  const side = passages.node(-1) ? -1 : 1;
  const beside = crossing(setting, goal, passages.node(side));
  if (!here || !beside) return null;
  const moved = Math.abs(missAlong(goal, beside) - missAlong(goal, here));
  if (!(moved > 0)) return null;
  // Cosine of the angle from straight in; the ball is that much wider along the mouth.
  const straight =
    (goal.edge.nx * here.vx + goal.edge.ny * here.vy) / Math.sqrt(here.vx ** 2 + here.vy ** 2);
  const clear = (mouthWidth - (2 * setting.table.ballRadius) / straight) / 2;
  // Steep balls find less room than this floor, or none; facings may still take them.
  const halfOpen = Math.max(clear, (mouthWidth - 2 * setting.table.ballRadius) / 6) / mouthWidth;
  return { mouth: (NODE * mouthWidth) / moved, halfOpen };
}

/** The ball where it crosses the target's edge. */
function crossing(setting: Setting, goal: TargetLine, ball: Ball | null): Ball | null {
  if (!ball) return null;
  const flight = continueFlight(
    setting,
    { stretches: [], touches: [], ball, end: ball },
    goal.edge,
  );
  return flight.arrived ? flight.end : null;
}
