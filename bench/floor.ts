/**
 * How a shot's time compares with the bare arithmetic of its impacts. A step of Dormand & Prince is
 * six new evaluations (the seventh is the next step's first) of 54 operations each (`slidingRates` in
 * src/table/friction.ts; a multiplication, addition, division or root counts as one). Without the
 * tableau's zeros, its stages take 5·(3 + 5 + 7 + 9 + 11) + 6·11 and its error 66: 631 in all. Decisions,
 * landings and the cloth come on top.
 */

import { tally } from '../src/table/impulse-step.ts';
import { endOfOurs } from '../tests/oracle/shot.ts';
import { shots } from './catalogue.ts';
import { compare } from './measure.ts';

const EVALUATION = 54;
const EVALUATIONS = 6;
const STEP = EVALUATIONS * EVALUATION + 5 * (3 + 5 + 7 + 9 + 11) + 6 * 11 + 66;

export interface Floor {
  readonly flopsPerStep: number;
  readonly stepsPerShot: number;
  readonly flopsPerSecond: number;
  /** Time of a shot over that of its steps at that rate. */
  readonly times: number;
}

/** @param shotsPerSecond ours, from the same run */
export function benchFloor(shotsPerSecond: number): Floor {
  const flopsPerSecond = multiplyAdds();
  const stepsPerShot = steps() / shots.length;
  const floor = (stepsPerShot * STEP) / flopsPerSecond;
  return {
    flopsPerStep: STEP,
    stepsPerShot,
    flopsPerSecond,
    times: 1 / shotsPerSecond / floor,
  };
}

/** Operations per second of a loop of multiplications and additions in four independent chains. */
function multiplyAdds(): number {
  const rounds = 20_000_000;
  let kept = 0;
  const [rate] = compare([
    {
      name: 'loop',
      run: () => {
        let [a, b, c, d] = [1, 2, 3, 4] as [number, number, number, number];
        for (let n = 0; n < rounds; n++) {
          a = a * 0.999 + 0.1;
          b = b * 0.998 + 0.2;
          c = c * 0.997 + 0.3;
          d = d * 0.996 + 0.4;
        }
        kept += a + b + c + d;
        return 8 * rounds;
      },
    },
  ]);
  if (!Number.isFinite(kept)) throw new Error(`the loop gave ${kept}`);
  return rate?.perSecond ?? Number.NaN;
}

/** Steps of all shots, including those taken back. */
function steps(): number {
  const before = tally.steps;
  for (const shot of shots) endOfOurs(shot);
  return tally.steps - before;
}
