/**
 * An independent second writing of the model, from vectors, for a general-purpose ODE solver:
 * odex 2.0.4 (Hairer's ODEX, Gragg–Bulirsch–Stoer extrapolation), BSD-2-Clause, from the registry.
 * Shared by the tests and the bench. Friction at a contact is μ N u/√(|u|² + ε²): Coulomb's law in
 * the limit ε → 0, so a contact that sticks creeps by at most about ε.
 */
import { Solver } from 'odex';
import {
  type Ball,
  type Condition,
  type CushionLaw,
  type Edge,
  GRAVITY,
  type Spinning,
} from '../../src/table/index.ts';

type Vec = readonly [number, number, number];

const cross = (a: Vec, b: Vec): Vec => [
  a[1] * b[2] - a[2] * b[1],
  a[2] * b[0] - a[0] * b[2],
  a[0] * b[1] - a[1] * b[0],
];
const dot = (a: Vec, b: Vec) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const plus = (a: Vec, b: Vec): Vec => [a[0] + b[0], a[1] + b[1], a[2] + b[2]];
const times = (q: number, a: Vec): Vec => [q * a[0], q * a[1], q * a[2]];

export interface Accuracy {
  readonly tolerance: number;
  /** ε of the friction law, as a fraction of the speed into the cushion. */
  readonly creep: number;
}

/** State: v (3), w = R ω (3), work. Radius and mass 1; I = 2/5. */
function impactDerivative(law: CushionLaw, creep: number) {
  const s = law.contactSine;
  const c = Math.sqrt(1 - s * s);
  const normal: Vec = [0, -c, -s];
  const atNose: Vec = [0, c, s];
  const atCloth: Vec = [0, 0, -1];
  return (_p: number, y: number[]): number[] => {
    const v: Vec = [y[0] as number, y[1] as number, y[2] as number];
    const w: Vec = [y[3] as number, y[4] as number, y[5] as number];
    const slide = plus(v, cross(w, atNose));
    const noseSlip = plus(slide, times(-dot(slide, normal), normal));
    const noseSize = Math.sqrt(dot(noseSlip, noseSlip) + creep * creep);
    const noseForce = times(-law.noseFriction / noseSize, noseSlip);
    const reaction = Math.max(0, -(normal[2] + noseForce[2]));
    const clothSlip = plus(v, cross(w, atCloth));
    const flat: Vec = [clothSlip[0], clothSlip[1], 0];
    const clothSize = Math.sqrt(dot(flat, flat) + creep * creep);
    const clothForce = times((-law.clothFriction * reaction) / clothSize, flat);
    const force = plus(plus(normal, noseForce), plus(clothForce, [0, 0, reaction]));
    const torque = times(2.5, plus(cross(atNose, noseForce), cross(atCloth, clothForce)));
    return [force[0], force[1], 0, ...torque, -dot(v, normal)];
  };
}

function advance(
  f: (x: number, y: number[]) => number[],
  from: number,
  y: number[],
  to: number,
  tolerance: number,
) {
  const solver = new Solver(y.length);
  solver.absoluteTolerance = tolerance;
  solver.relativeTolerance = tolerance;
  solver.maxSteps = 50_000;
  // Zero lengths have nothing to integrate, and the solver does not accept them.
  return from === to ? y : solver.solve(f, from, y, to).y;
}

/** Newton on the end of an integration, restarted from where it stopped, until `gap` is zero. */
function advanceUntil(
  f: (x: number, y: number[]) => number[],
  start: { readonly x: number; readonly y: number[] },
  guess: number,
  gap: (y: number[]) => { readonly value: number; readonly slope: (rate: number[]) => number },
  tolerance: number,
) {
  let { x } = start;
  let y = start.y;
  let next = guess;
  for (let round = 0; round < 30; round++) {
    y = advance(f, x, y, next, tolerance);
    x = next;
    const { value, slope } = gap(y);
    const change = value / slope(f(x, y));
    if (Math.abs(value) < 0.1 * tolerance || Math.abs(change) < 1e-12) break;
    next = x - change;
  }
  return { x, y };
}

/** The cushion impact by the general solver, in the frame and units of `cushionImpact`. */
export function impactByOde(law: CushionLaw, ball: Spinning, accuracy: Accuracy): Spinning {
  const q = 1 / ball.vy;
  const c = Math.sqrt(1 - law.contactSine ** 2);
  const f = impactDerivative(law, accuracy.creep);
  const start = [ball.vx * q, 1, 0, ball.wx * q, ball.wy * q, ball.wz * q, 0];
  const pressed = advanceUntil(
    f,
    { x: 0, y: start },
    0.9 / c,
    (y) => ({ value: y[1] as number, slope: (rate) => rate[1] as number }),
    accuracy.tolerance,
  );
  const kept = (1 - law.restitution ** 2) * (pressed.y[6] as number);
  const done = advanceUntil(
    f,
    pressed,
    pressed.x * (1 + 0.9 * law.restitution),
    (y) => ({ value: (y[6] as number) - kept, slope: (rate) => rate[6] as number }),
    accuracy.tolerance,
  );
  const [vx, vy, , wx, wy, wz] = done.y.map((value) => value / q) as [
    number,
    number,
    number,
    number,
    number,
    number,
  ];
  return { vx, vy, wx, wy, wz };
}

/** The same impact by classical Runge–Kutta steps of fixed size, ends found by linear interpolation. */
export function impactByBruteForce(
  law: CushionLaw,
  ball: Spinning,
  h = 2e-4,
  creep = 1e-4,
): Spinning {
  const f = impactDerivative(law, creep);
  const q = 1 / ball.vy;
  let y = [ball.vx * q, 1, 0, ball.wx * q, ball.wy * q, ball.wz * q, 0];
  let kept: number | null = null;
  for (;;) {
    const z = rungeKutta(f, y, h);
    if (kept === null && at(z, 1) <= 0) {
      const part = at(y, 1) / (at(y, 1) - at(z, 1));
      kept = (1 - law.restitution ** 2) * (at(y, 6) + part * (at(z, 6) - at(y, 6)));
    }
    if (kept !== null && at(z, 6) <= kept) {
      const part = (at(y, 6) - kept) / (at(y, 6) - at(z, 6));
      const end = y.map((value, n) => (value + part * (at(z, n) - value)) / q);
      return { vx: at(end, 0), vy: at(end, 1), wx: at(end, 3), wy: at(end, 4), wz: at(end, 5) };
    }
    y = z;
  }
}

function rungeKutta(f: (x: number, y: number[]) => number[], y: number[], h: number): number[] {
  const a = f(0, y);
  const b = f(
    0,
    y.map((value, n) => value + (h / 2) * at(a, n)),
  );
  const c = f(
    0,
    y.map((value, n) => value + (h / 2) * at(b, n)),
  );
  const d = f(
    0,
    y.map((value, n) => value + h * at(c, n)),
  );
  return y.map((value, n) => value + (h / 6) * (at(a, n) + 2 * at(b, n) + 2 * at(c, n) + at(d, n)));
}

function at(values: readonly number[], index: number): number {
  return values[index] as number;
}

/** Sliding friction on the cloth, and rolling resistance once the slip is gone: x, y, v, w. */
function clothDerivative(condition: Condition, creep: number) {
  return (_t: number, s: number[]): number[] => {
    const [, , vx, vy, wx, wy] = s as [number, number, number, number, number, number];
    const ux = vx - wy;
    const uy = vy + wx;
    const size = Math.sqrt(ux * ux + uy * uy + creep * creep);
    const ax = (-condition.slideFriction * GRAVITY * ux) / size;
    const ay = (-condition.slideFriction * GRAVITY * uy) / size;
    return [vx, vy, ax, ay, 2.5 * ay, -2.5 * ax];
  };
}

/** Position and motion after t seconds of sliding, by the general solver. */
export function rollByOde(
  condition: Condition,
  start: { readonly x: number; readonly y: number } & Spinning,
  t: number,
  tolerance: number,
): { x: number; y: number; vx: number; vy: number } {
  const f = clothDerivative(condition, 1e-7);
  const y = advance(f, 0, [start.x, start.y, start.vx, start.vy, start.wx, start.wy], t, tolerance);
  return { x: at(y, 0), y: at(y, 1), vx: at(y, 2), vy: at(y, 3) };
}

/** The ball where it crosses an edge outwards: slide and roll by the general solver. */
export function rollUntil(condition: Condition, start: Ball, edge: Edge, tolerance: number): Ball {
  const slip = Math.hypot(start.vx - start.wy, start.vy + start.wx);
  // Ends just before the slip does: at no slip friction has no direction, and a general solver
  // halves its steps there for ever.
  const slideTime = ((1 - 1e-6) * 2 * slip) / (7 * condition.slideFriction * GRAVITY);
  const slide = clothDerivative(condition, 0);
  const roll = (_t: number, s: number[]): number[] => {
    const [, , vx, vy] = s as [number, number, number, number];
    const speed = Math.sqrt(vx * vx + vy * vy);
    const a = (-condition.rollFriction * GRAVITY) / speed;
    return [vx, vy, a * vx, a * vy, -a * vy, a * vx];
  };
  const gap = (y: number[]) => ({
    value: edge.nx * at(y, 0) + edge.ny * at(y, 1) - edge.offset,
    slope: (rate: number[]) => edge.nx * at(rate, 0) + edge.ny * at(rate, 1),
  });
  const first = [start.x, start.y, start.vx, start.vy, start.wx, start.wy];
  const slid = slideTime > 1e-12 ? advance(slide, 0, first, slideTime, tolerance) : first;
  const [f, from] = gap(slid).value > 0 ? [slide, first] : [roll, slid];
  const { value, slope } = gap(from);
  const guess = -value / slope(f(0, from));
  const end = advanceUntil(f, { x: 0, y: from }, guess, gap, tolerance).y;
  const [x = 0, y = 0, vx = 0, vy = 0, wx = 0, wy = 0] = end;
  return { x, y, vx, vy, wx, wy, wz: start.wz };
}
