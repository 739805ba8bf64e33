/**
 * A table's condition as three knobs, each in units of its likely spread. 0 is the chart's
 * condition. These three values move numbers most and differ most between tables. The sliding
 * friction of the cloth acts much like a change of all speeds, and shots cannot separate the two.
 */

import type { Condition, Setting } from '../table/index.ts';
import { besideMark, type Mark } from './mark.ts';
import type { PlannedShot } from './shot.ts';
import type { Vector } from './small-matrix.ts';

export const KNOBS = ['restitution', 'noseFriction', 'speed'] as const;
export type Knob = (typeof KNOBS)[number];

/**
 * How far a table is likely to be from the chart's, as one standard deviation. Restitution: 0.06,
 * the spread of our presets, 0.76–0.9. Nose friction: 0.03, the spread of our presets, 0.12–0.18.
 * Speed: the named speeds next to "medium" are 20–30 % away (5, 7, 8 mph: Alciatore, physics FAQ),
 * and halfway to them the name changes. The prior is weak: eight shots outweigh it.
 */
export const SPREADS: Readonly<Record<Knob, number>> = {
  restitution: 0.06,
  noseFriction: 0.03,
  speed: 0.12,
};

/** The same limits as for a stored condition (condition-schema.ts). */
const LIMITS = { restitution: [0.5, 1], noseFriction: [0, 0.25], speed: [0.5, 10] } as const;

/** The step to either side for a difference quotient, in spreads. */
const BESIDE = 0.1;

/**
 * Returns a condition with its knobs turned.
 * @param knobs how far to turn each knob, in spreads
 */
export function turned(condition: Condition, knobs: Vector): Condition {
  const [restitution = 0, noseFriction = 0, speed = 0] = knobs;
  const faster = Math.exp(SPREADS.speed * speed);
  const { soft, medium, firm } = condition.speeds;
  return {
    ...condition,
    restitution: condition.restitution + SPREADS.restitution * restitution,
    noseFriction: condition.noseFriction + SPREADS.noseFriction * noseFriction,
    speeds: { soft: soft * faster, medium: medium * faster, firm: firm * faster },
  };
}

/** Returns the nearest knobs that give a condition within the limits. */
export function withinLimits(condition: Condition, knobs: Vector): Vector {
  const { soft, firm } = condition.speeds;
  const straight = (knob: 'restitution' | 'noseFriction') =>
    LIMITS[knob].map((limit) => (limit - condition[knob]) / SPREADS[knob]);
  const [slowest, fastest] = LIMITS.speed;
  const ends = [
    straight('restitution'),
    straight('noseFriction'),
    [Math.log(slowest / soft) / SPREADS.speed, Math.log(fastest / firm) / SPREADS.speed],
  ];
  return knobs.map((value, n) => {
    const [low = value, high = value] = ends[n] ?? [];
    return Math.min(high, Math.max(low, value));
  });
}

export function turnedTable(setting: Setting, knobs: Vector): Setting {
  return { ...setting, condition: turned(setting.condition, knobs) };
}

/**
 * Returns how far a path moves across a mark for one spread of each knob, in meters; null if the
 * ball does not get there.
 */
export function slopesOf(
  setting: Setting,
  at: Vector,
  played: PlannedShot,
  mark: Mark,
): Vector | null {
  const slopes: number[] = [];
  for (const [n] of KNOBS.entries()) {
    const beside = (by: number) => {
      const knobs = at.map((value, k) => (k === n ? value + by : value));
      const within = withinLimits(setting.condition, knobs);
      const miss = besideMark(turnedTable(setting, within), played, mark);
      return miss === null ? null : { at: within[n] ?? 0, miss };
    };
    const low = beside(-BESIDE) ?? beside(0);
    const high = beside(BESIDE) ?? beside(0);
    if (!low || !high || low.at === high.at) return null;
    slopes.push((high.miss - low.miss) / (high.at - low.at));
  }
  return slopes;
}
