/**
 * The model's numbers at starts that are not a chart's own: those of measured lines that lack one. A
 * chart that comes from elsewhere may have two thousand of them, each a search for six shots or
 * sixty; so each number is solved when it is asked for and not before, and their count is bounded.
 */

import { divisions, type Setting, type Speed, solveLine } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { PatternId } from '../document/patterns.ts';
import { patternOf } from '../document/patterns.ts';
import { type Knot, monotoneCubic } from './monotone-cubic.ts';
import { type Aim, type Aims, aimOf } from './solved.ts';

/** Starts of a pattern that are solved one by one at most: a long rail has as many eighths. */
export const MOST_ALONE = 65;
const EIGHTH = 1250 as Decimal;

/**
 * What the model says at some starts of a pattern. More than `MOST_ALONE` of them are read off the
 * curve through their nearest eighths: within 0.015 of a diamond of the solved number, and mostly
 * within 0.001. A start beside an eighth that has no number has none, for the same reason.
 * @param count of the starts that will be asked about
 */
export function oddAims(setting: Setting, id: PatternId, count: number): (start: Decimal) => Aims {
  const solved = remembered((start) => perSpeed((speed) => solve(setting, id, start, speed)));
  if (count <= MOST_ALONE) return solved;
  const last = (divisions(patternOf(id).start.rail) * 10_000) as Decimal;
  return remembered((start) =>
    perSpeed((speed) => onCurve(start, last, (at) => solved(at)[speed])),
  );
}

function remembered(of: (start: Decimal) => Aims): (start: Decimal) => Aims {
  const known = new Map<Decimal, Aims>();
  return (start) => {
    const aims = known.get(start) ?? of(start);
    known.set(start, aims);
    return aims;
  };
}

/** Each speed when it is first asked for. */
function perSpeed(of: (speed: Speed) => Aim): Aims {
  const known = new Map<Speed, Aim>();
  const at = (speed: Speed): Aim => {
    const aim = known.get(speed) ?? of(speed);
    known.set(speed, aim);
    return aim;
  };
  return {
    get soft() {
      return at('soft');
    },
    get medium() {
      return at('medium');
    },
    get firm() {
      return at('firm');
    },
  };
}

function solve(setting: Setting, id: PatternId, start: Decimal, speed: Speed): Aim {
  const pattern = patternOf(id);
  const launch = { ...pattern.stroke, speed: setting.condition.speeds[speed] };
  return aimOf(solveLine(setting, pattern, toNumber(start), launch));
}

/** Through the two eighths around a start and, where they have numbers, the two beyond. */
function onCurve(start: Decimal, last: Decimal, solved: (start: Decimal) => Aim): Aim {
  const low = (start - (start % EIGHTH)) as Decimal;
  const high = (low + EIGHTH) as Decimal;
  const before = solved(low);
  if (start === low || before.why !== null) return before;
  const after = solved(high);
  if (after.why !== null) return after;
  const knots = [low - EIGHTH, low, high, high + EIGHTH]
    .filter((at) => at >= 0 && at <= last)
    .flatMap((at): Knot[] => {
      const { aim } = solved(at as Decimal);
      return aim === null ? [] : [{ x: toNumber(at as Decimal), y: aim }];
    });
  const aim = monotoneCubic(knots)(toNumber(start));
  if (aim === null) throw new Error(`${start} is not between its eighths`);
  return { aim, why: null };
}
