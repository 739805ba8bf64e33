/**
 * An independent second implementation of the cushion impact, from vectors: over the normal impulse,
 * with friction μ N u/√(|u|² + ε²) at a contact. This is Coulomb's law in the limit ε → 0; a contact
 * that sticks creeps by about ε at most.
 */
import type { Derivative } from 'odex';
import type { CushionLaw, Spinning } from '../../src/table/index.ts';
import { advance, advanceUntil, type Gap, rungeKutta } from './solver.ts';

export interface Accuracy {
  readonly tolerance: number;
  /** ε of the friction law, as a fraction of the speed into the cushion. */
  readonly creep: number;
}

/**
 * State: v (x along, y into the cushion), w = R ω (3), work. Radius and mass 1, I = 2/5. The ball
 * touches the nose at r = (0, c, s), with normal n = −r, and the cloth at (0, 0, −1). A force F at r
 * gives the torque r × F; the slip there is the part of v + w × r across n.
 */
function impactDerivative(law: CushionLaw, creep: number): Derivative {
  const s = law.contactSine;
  const c = Math.sqrt(1 - s * s);
  return (_p, y) => {
    const [vx, vy, wx, wy, wz] = y as [number, number, number, number, number];
    // v + w × r = (vx + wy s − wz c, vy − wx s, wx c); its part along n is −c vy.
    const u1 = vx + wy * s - wz * c;
    const u2 = vy - wx * s - c * c * vy;
    const u3 = wx * c - s * c * vy;
    const grip = -law.noseFriction / Math.sqrt(u1 * u1 + u2 * u2 + u3 * u3 + creep * creep);
    const f1 = grip * u1;
    const f2 = grip * u2;
    const f3 = grip * u3;
    // The cloth's reaction to the nose's push down, s, and to its friction.
    const reaction = Math.max(0, s - f3);
    const q1 = vx - wy;
    const q2 = vy + wx;
    const drag = (-law.clothFriction * reaction) / Math.sqrt(q1 * q1 + q2 * q2 + creep * creep);
    const g1 = drag * q1;
    const g2 = drag * q2;
    return [
      f1 + g1,
      -c + f2 + g2,
      2.5 * (c * f3 - s * f2 + g2),
      2.5 * (s * f1 - g1),
      2.5 * -c * f1,
      c * vy,
    ];
  };
}

function begin(ball: Spinning): number[] {
  const q = 1 / ball.vy;
  return [ball.vx * q, 1, ball.wx * q, ball.wy * q, ball.wz * q, 0];
}

function leave(y: readonly number[], ball: Spinning): Spinning {
  const [vx = 0, vy = 0, wx = 0, wy = 0, wz = 0] = y.map((value) => value * ball.vy);
  return { vx, vy, wx, wy, wz };
}

/** Zero when the ball is at rest against the cushion. */
const pressedIn: Gap = { value: (y) => y[1] as number, rate: (dy) => dy[1] as number };

/** The cushion impact by the general solver, in the frame and units of `cushionImpact`. */
export function impactByOde(law: CushionLaw, ball: Spinning, accuracy: Accuracy): Spinning {
  const { tolerance } = accuracy;
  const c = Math.sqrt(1 - law.contactSine ** 2);
  const f = impactDerivative(law, accuracy.creep);
  const start = { x: 0, y: begin(ball) };
  const pressed = advanceUntil(f, start, 0.8 / c, pressedIn, tolerance);
  const kept = (1 - law.restitution ** 2) * (pressed.y[5] as number);
  const released: Gap = { value: (y) => (y[5] as number) - kept, rate: (dy) => dy[5] as number };
  // The work is stationary at the turn: begin a little after it.
  const onward = advance(f, pressed, pressed.x * (1 + 0.5 * law.restitution), tolerance);
  if (released.value(onward.y) <= 0) throw new Error('the cushion gave back its work too soon');
  const done = advanceUntil(
    f,
    onward,
    pressed.x * (1 + 0.8 * law.restitution),
    released,
    tolerance,
  );
  return leave(done.y, ball);
}

/** In units of the speed into the cushion. */
export interface Steps {
  readonly h: number;
  readonly creep: number;
}

/** The impact by classical Runge–Kutta steps of fixed size; its ends by linear interpolation. */
export function impactByBruteForce(law: CushionLaw, ball: Spinning, { h, creep }: Steps): Spinning {
  const f = impactDerivative(law, creep);
  let y = begin(ball);
  let kept: number | null = null;
  for (;;) {
    const z = rungeKutta(f, 0, y, h);
    const [speed, work] = [z[1] as number, z[5] as number];
    if (kept === null && speed <= 0) {
      const part = (y[1] as number) / ((y[1] as number) - speed);
      kept = (1 - law.restitution ** 2) * ((y[5] as number) + part * (work - (y[5] as number)));
    }
    if (kept !== null && work <= kept) {
      const part = ((y[5] as number) - kept) / ((y[5] as number) - work);
      return leave(
        y.map((value, n) => value + part * ((z[n] as number) - value)),
        ball,
      );
    }
    y = z;
  }
}
