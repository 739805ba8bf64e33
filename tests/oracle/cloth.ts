/**
 * An independent second implementation of the motion on the cloth: sliding friction against the slip,
 * then rolling resistance against the motion, integrated by a general solver or in small steps.
 */
import type { Derivative } from 'odex';
import { type Ball, type Condition, type Edge, GRAVITY } from '../../src/table/index.ts';
import { advance, advanceUntil, type Gap, type Instant, rungeKutta } from './solver.ts';

/** Where a ball crosses an edge outwards, or lies still if it does not reach it. */
export interface Ended {
  readonly ball: Ball;
  readonly crossed: boolean;
}

/** State: x, y, v (2), w = R ω (2). */
function sliding(condition: Condition): Derivative {
  const most = condition.slideFriction * GRAVITY;
  return (_t, s) => {
    const [, , vx, vy, wx, wy] = s as [number, number, number, number, number, number];
    const ux = vx - wy;
    const uy = vy + wx;
    const size = Math.sqrt(ux * ux + uy * uy);
    const ax = (-most * ux) / size;
    const ay = (-most * uy) / size;
    return [vx, vy, ax, ay, 2.5 * ay, -2.5 * ax];
  };
}

function rolling(condition: Condition): Derivative {
  return (_t, s) => {
    const [, , vx, vy] = s as [number, number, number, number];
    const a = (-condition.rollFriction * GRAVITY) / Math.sqrt(vx * vx + vy * vy);
    return [vx, vy, a * vx, a * vy, -a * vy, a * vx];
  };
}

/** A slide takes 2u/(7 μs g) for slip u (Coriolis 1835; Shepard). */
function slideTime(condition: Condition, ball: Ball): number {
  const slip = Math.hypot(ball.vx - ball.wy, ball.vy + ball.wx);
  // Slip that rounding leaves is not a slide.
  return slip < 1e-9 * Math.hypot(ball.vx, ball.vy)
    ? 0
    : (2 * slip) / (7 * condition.slideFriction * GRAVITY);
}

function beyond(edge: Edge): Gap {
  return {
    value: (y) => edge.nx * (y[0] as number) + edge.ny * (y[1] as number) - edge.offset,
    rate: (dy) => edge.nx * (dy[0] as number) + edge.ny * (dy[1] as number),
  };
}

/** Speed away from or towards the edge: its zero is where the path turns round. */
function speedTo(edge: Edge): Gap {
  return {
    value: (y) => edge.nx * (y[2] as number) + edge.ny * (y[3] as number),
    rate: (dy) => edge.nx * (dy[2] as number) + edge.ny * (dy[3] as number),
  };
}

/** Slide and roll by the general solver. */
export function runByOde(
  { condition, ballRadius }: { readonly condition: Condition; readonly ballRadius: number },
  start: Ball,
  edge: Edge,
  tolerance: number,
): Ended {
  let at: Instant = { x: 0, y: stateOf(start) };
  const end = (y: Instant, crossed: boolean): Ended => ({
    ball: ballOf(y.y, spinLeft(condition, ballRadius, start.wz, y.x)),
    crossed,
  });
  const slide = slideTime(condition, start);
  if (slide > 0) {
    // Ends just before the slip does: without slip, friction has no direction, and a general solver
    // halves its steps there for ever.
    const found = cross(sliding(condition), at, (1 - 1e-7) * slide, edge, tolerance);
    if (found.crossed) return end(found.at, true);
    at = found.at;
  }
  const speed = Math.hypot(at.y[2] as number, at.y[3] as number);
  // Likewise: 1e-14 of the path remains.
  const still = at.x + ((1 - 1e-7) * speed) / (condition.rollFriction * GRAVITY);
  const found = cross(rolling(condition), at, still, edge, tolerance);
  return end(found.at, found.crossed);
}

/** The first crossing outwards before `until`, or the ball at that time. */
function cross(f: Derivative, from: Instant, until: number, edge: Edge, tolerance: number) {
  const gap = beyond(edge);
  const speed = speedTo(edge);
  const last = advance(f, from, until, tolerance);
  const [before, after] = [speed.value(from.y), speed.value(last.y)];
  const turns = before * after < 0;
  const middle = from.x + ((until - from.x) * before) / (before - after);
  const turn = turns ? advanceUntil(f, from, middle, speed, tolerance) : last;
  for (const [a, b] of turns ? [[from, turn] as const, [turn, last] as const] : [[from, last]]) {
    const [low, high] = [gap.value(a?.y ?? []), gap.value(b?.y ?? [])];
    if (!(a && b && low < 0 && high > 0)) continue;
    const guess = a.x + ((b.x - a.x) * low) / (low - high);
    return { at: advanceUntil(f, a, guess, gap, tolerance), crossed: true };
  }
  return { at: last, crossed: false };
}

/** Position and motion after t seconds of sliding, by the general solver. */
export function slideByOde(condition: Condition, start: Ball, t: number, tolerance: number): Ball {
  const { y } = advance(sliding(condition), { x: 0, y: stateOf(start) }, t, tolerance);
  return ballOf(y, start.wz);
}

/** Slide and roll in small steps of time, the crossing by linear interpolation to about 1e-7 m. */
export function runByBruteForce(
  { condition, ballRadius }: { readonly condition: Condition; readonly ballRadius: number },
  start: Ball,
  edge: Edge,
  h = 5e-4,
): Ended {
  const gap = beyond(edge).value;
  let y = stateOf(start);
  let { wz } = start;
  for (;;) {
    const left = slideTime(condition, ballOf(y, wz));
    const speed = Math.hypot(y[2] as number, y[3] as number);
    const f = left > 0 ? sliding(condition) : rolling(condition);
    const rest = left > 0 ? left : speed / (condition.rollFriction * GRAVITY);
    if (left === 0 && rest < 1e-6) return { ball: ballOf(y, wz), crossed: false };
    // As above, the last step of a slide or a roll ends just before it does.
    const ends = rest <= h;
    const dt = ends ? (1 - 1e-7) * rest : h;
    let z = rungeKutta(f, 0, y, dt);
    if (ends && left > 0) z = [...z.slice(0, 4), -(z[3] as number), z[2] as number];
    const spin = spinLeft(condition, ballRadius, wz, dt);
    if (gap(z) >= 0 && gap(y) < 0) {
      const part = gap(y) / (gap(y) - gap(z));
      const at = y.map((q, n) => q + part * ((z[n] as number) - q));
      return { ball: ballOf(at, wz + part * (spin - wz)), crossed: true };
    }
    y = z;
    wz = spin;
  }
}

/** The cloth slows spin about the vertical at a constant rate, whatever else the ball does. */
function spinLeft({ spinDecay }: Condition, radius: number, wz: number, t: number): number {
  const left = Math.abs(wz) - spinDecay * radius * t;
  return left > 0 ? Math.sign(wz) * left : 0;
}

function stateOf({ x, y, vx, vy, wx, wy }: Ball): number[] {
  return [x, y, vx, vy, wx, wy];
}

function ballOf([x = 0, y = 0, vx = 0, vy = 0, wx = 0, wy = 0]: readonly number[], wz: number) {
  return { x, y, vx, vy, wx, wy, wz };
}
