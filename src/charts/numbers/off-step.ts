/**
 * The model's numbers at starts off the chart's step, for measured lines with a missing number. A chart
 * from outside may have two thousand of them, and each takes 6 to 60 played shots. So each number is
 * solved lazily, and their count is bounded.
 */

import { divisions, type Setting, type Speed, solveLine } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import { type PatternId, patternOf } from '../document/patterns.ts';
import { type Knot, monotoneCubic } from './monotone-cubic.ts';
import { type Aim, type Aims, aimOf } from './solved.ts';

/** Most starts of a pattern that are solved one by one: the eighths of a long rail. */
export const MOST_SOLVED = 65;
const EIGHTH = 1250 as Decimal;

/**
 * The model's numbers at some starts of a pattern. If there are more than `MOST_SOLVED`, they are read
 * off the curve through their nearest eighths: within 0.015 diamond of the solved number, mostly
 * within 0.001. A start next to an eighth without a number has none either, for the same reason.
 * @param count how many starts will be requested
 */
export function offStepAims(
  setting: Setting,
  id: PatternId,
  count: number,
): (start: Decimal) => Aims {
  const solved = memoized((start: Decimal) =>
    lazyAims((speed) => solve(setting, id, start, speed)),
  );
  if (count <= MOST_SOLVED) return solved;
  const last = (divisions(patternOf(id).start.rail) * 10_000) as Decimal;
  return memoized((start: Decimal) =>
    lazyAims((speed) => onCurve(start, last, (at) => solved(at)[speed])),
  );
}

function memoized<K, V extends object>(of: (key: K) => V): (key: K) => V {
  const cache = new Map<K, V>();
  return (key) => {
    const value = cache.get(key) ?? of(key);
    cache.set(key, value);
    return value;
  };
}

/** Computes each speed when it is first read. */
function lazyAims(of: (speed: Speed) => Aim): Aims {
  const at = memoized(of);
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

/** On the curve through the two eighths around a start and the two beyond, if those have numbers. */
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
