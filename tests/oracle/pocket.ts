/**
 * A second implementation of a ball's run into a pocket: tiny steps of time, and after each the
 * distance from the ball to the rubber. The rubber is modelled differently from src: a jaw is all
 * points within the tip's radius of a sharp wedge. Only the law of the impact is shared; it has its
 * own oracle in impact.ts.
 */
import {
  type Ball,
  type Condition,
  GRAVITY,
  type PocketName,
  type Point,
  rebound,
  type Setting,
  type Table,
} from '../../src/table/index.ts';

/** Seconds. At 5 m/s the ball moves 0.05 mm in a step; a touch within it is found by bisection. */
const STEP = 1e-5;

/** m/s: a step of rolling takes 1e-6 off on a cloth of 0.01. */
const STILL = 2e-6;

/** Touches after which the ball counts as hanging. */
const MAX_TOUCHES = 12;

interface Wedge {
  readonly tip: Point;
  /** Away from the tip along the nose, and the normals into the rubber. */
  readonly away: Point;
  readonly nose: Point;
  readonly facing: Point;
  /** The sharp point of the inner wedge. */
  readonly point: Point;
}

interface Pocket {
  readonly wedges: readonly [Wedge, Wedge];
  readonly fallen: (p: Point) => boolean;
  readonly isIn: (p: Point) => boolean;
}

const dot = (a: Point, b: Point) => a.x * b.x + a.y * b.y;
const minus = (a: Point, b: Point) => ({ x: a.x - b.x, y: a.y - b.y });
const along = (p: Point, q: number, d: Point) => ({ x: p.x + q * d.x, y: p.y + q * d.y });
const size = (a: Point) => Math.sqrt(dot(a, a));
const unit = (a: Point) => ({ x: a.x / size(a), y: a.y / size(a) });

/** The rubber inside the jaw has the cut angle between its two faces. */
function wedge(table: Table, cut: number, tip: Point, away: Point, nose: Point): Wedge {
  const face = { x: Math.cos(cut) * away.x + Math.sin(cut) * nose.x, y: 0 };
  face.y = Math.cos(cut) * away.y + Math.sin(cut) * nose.y;
  const normal = { x: -face.y, y: face.x };
  const facing = dot(normal, away) > 0 ? normal : { x: face.y, y: -face.x };
  // The inner wedge's faces lie one tip radius inside the rubber; its point is on the bisector.
  const bisector = { x: away.x + face.x, y: away.y + face.y };
  const q = table.tipRadius / dot(bisector, nose);
  return { tip, away, nose, facing, point: along(tip, q, bisector) };
}

function pocketOf(table: Table, name: PocketName): Pocket {
  const [end, hand] = name.split('-');
  const { length, width } = table;
  if (hand === 'side') {
    const y = end === 'left' ? 0 : width;
    const nose = { x: 0, y: end === 'left' ? -1 : 1 };
    const half = table.sideMouth / 2;
    const jaw = (s: -1 | 1) =>
      wedge(table, table.sideCut, { x: length / 2 + s * half, y }, { x: s, y: 0 }, nose);
    return opening([jaw(-1), jaw(1)], nose, table.sideShelf, table.ballRadius);
  }
  const leg = table.cornerMouth * Math.SQRT1_2;
  const corner = { x: end === 'foot' ? 0 : length, y: hand === 'left' ? 0 : width };
  const inX = { x: end === 'foot' ? 1 : -1, y: 0 };
  const inY = { x: 0, y: hand === 'left' ? 1 : -1 };
  const out = (p: Point) => ({ x: 0 - p.x, y: 0 - p.y });
  const onLong = wedge(table, table.cornerCut, along(corner, leg, inX), inX, out(inY));
  const onShort = wedge(table, table.cornerCut, along(corner, leg, inY), inY, out(inX));
  const deeper = { x: -inX.x * Math.SQRT1_2, y: -inY.y * Math.SQRT1_2 };
  return opening([onLong, onShort], deeper, table.cornerShelf, table.ballRadius);
}

function opening(
  wedges: readonly [Wedge, Wedge],
  deeper: Point,
  shelf: number,
  ballRadius: number,
): Pocket {
  const [{ tip: a }, { tip: b }] = wedges;
  const depth = (p: Point) => dot(minus(p, a), deeper);
  const wide = size(minus(b, a));
  return {
    wedges,
    fallen: (p) => depth(p) >= shelf,
    isIn: (p) => {
      const across = dot(minus(p, a), minus(b, a)) / wide;
      return depth(p) > -ballRadius && across > 0 && across < wide;
    },
  };
}

/** From p to the nearest point of the inner wedge. */
function towards({ tip, nose, facing, point }: Wedge, radius: number, p: Point): Point {
  const inNose = dot(minus(p, tip), nose) - radius;
  const inFacing = dot(minus(p, tip), facing) - radius;
  const corner = dot(nose, facing);
  if (inNose < 0 && inFacing - inNose * corner >= 0) return along({ x: 0, y: 0 }, -inNose, nose);
  if (inFacing < 0 && inNose - inFacing * corner >= 0) {
    return along({ x: 0, y: 0 }, -inFacing, facing);
  }
  return inNose >= 0 && inFacing >= 0 ? { x: 0, y: 0 } : minus(point, p);
}

function advance(condition: Condition, ball: Ball, radius: number, h: number): Ball {
  const ux = ball.vx - ball.wy;
  const uy = ball.vy + ball.wx;
  const slip = Math.sqrt(ux * ux + uy * uy);
  const most = condition.slideFriction * GRAVITY;
  const wz = Math.sign(ball.wz) * Math.max(0, Math.abs(ball.wz) - condition.spinDecay * radius * h);
  const slides = slip > 3.5 * most * h;
  const speed = Math.sqrt(ball.vx ** 2 + ball.vy ** 2);
  const slow = Math.min(condition.rollFriction * GRAVITY, speed / h);
  const ax = slides ? (-most * ux) / slip : speed > 0 ? (-slow * ball.vx) / speed : 0;
  const ay = slides ? (-most * uy) / slip : speed > 0 ? (-slow * ball.vy) / speed : 0;
  const vx = ball.vx + h * ax;
  const vy = ball.vy + h * ay;
  const x = ball.x + (h * (ball.vx + vx)) / 2;
  const y = ball.y + (h * (ball.vy + vy)) / 2;
  if (!slides) return { x, y, vx, vy, wx: -vy, wy: vx, wz };
  return { x, y, vx, vy, wx: ball.wx + 2.5 * h * ay, wy: ball.wy - 2.5 * h * ax, wz };
}

export interface SteppedRun {
  readonly kind: 'drops' | 'hangs' | 'comes out' | 'misses';
  readonly touches: number;
  readonly end: Ball;
}

export function stepIntoPocket(setting: Setting, start: Ball, name: PocketName): SteppedRun {
  const { table, condition } = setting;
  const pocket = pocketOf(table, name);
  const reach = table.tipRadius + table.ballRadius;
  let ball = start;
  let touches = 0;
  let wasIn = false;
  for (;;) {
    const gone = wasIn ? 'comes out' : 'misses';
    if (pocket.fallen(ball)) return { kind: 'drops', touches, end: ball };
    if (touches >= MAX_TOUCHES) return { kind: 'hangs', touches, end: ball };
    if (isStill(ball)) return { kind: pocket.isIn(ball) ? 'hangs' : gone, touches, end: ball };
    let next = advance(condition, ball, table.ballRadius, STEP);
    for (const jaw of pocket.wedges) {
      if (size(towards(jaw, table.tipRadius, next)) >= reach) continue;
      next = land(setting, ball, jaw, reach);
      const into = unit(towards(jaw, table.tipRadius, next));
      const onNose = dot(into, jaw.nose) > 1 - 1e-12;
      if (onNose && dot(minus(next, jaw.tip), jaw.away) > halfDiamond(table, jaw)) {
        return { kind: gone, touches, end: next };
      }
      const back = rebound(setting, next, into);
      if (back) touches += 1;
      if (back && !onNose) wasIn = true;
      if (back) next = back;
    }
    if (touchesOther(table, pocket, next)) return { kind: gone, touches, end: next };
    ball = next;
  }
}

function isStill({ vx, vy, wx, wy }: Ball): boolean {
  return Math.abs(vx) + Math.abs(vy) + Math.abs(wx) + Math.abs(wy) < STILL;
}

/** The ball within a step, just before it reaches the rubber. */
function land({ condition, table }: Setting, ball: Ball, jaw: Wedge, reach: number): Ball {
  let clear = 0;
  let inside = STEP;
  for (let round = 0; round < 40; round++) {
    const middle = (clear + inside) / 2;
    const there = advance(condition, ball, table.ballRadius, middle);
    if (size(towards(jaw, table.tipRadius, there)) < reach) inside = middle;
    else clear = middle;
  }
  return advance(condition, ball, table.ballRadius, clear);
}

/** Long rails have eight diamonds, short ones four (WPA Rules 8.1). */
function halfDiamond(table: Table, jaw: Wedge): number {
  return jaw.nose.x === 0 ? table.length / 16 : table.width / 8;
}

/** Is the ball against a rail that is not beside the pocket? */
function touchesOther(table: Table, { wedges }: Pocket, { x, y }: Point): boolean {
  const r = table.ballRadius;
  const against = [
    { nose: { x: -1, y: 0 }, gap: x - r },
    { nose: { x: 1, y: 0 }, gap: table.length - r - x },
    { nose: { x: 0, y: -1 }, gap: y - r },
    { nose: { x: 0, y: 1 }, gap: table.width - r - y },
  ];
  return against.some(
    ({ nose, gap }) => gap < 0 && wedges.every((jaw) => dot(jaw.nose, nose) < 0.5),
  );
}
