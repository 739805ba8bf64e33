/**
 * Computes the model's numbers at starts off the chart's step, for measured lines that lack a
 * number. A chart from outside may have two thousand such lines, and each takes 6 to 60 played
 * shots. So each number is solved only when it is needed, and there is a limit to how many are
 * solved.
 */

import { divisions, type Setting, type Speed, solveLine } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import { type PatternId, patternOf } from '../document/patterns.ts';
import { type Knot, monotoneCubic } from './monotone-cubic.ts';
import { type Aim, type Aims, aimOf } from './solved.ts';

/** The most starts of a pattern that are solved one by one: as many as a long rail has eighths. */
export const MOST_SOLVED = 65;
const EIGHTH = 1250 as Decimal;

/**
 * Returns a function that gives the model's numbers at a start of a pattern. If more than
 * `MOST_SOLVED` starts will be requested, the numbers are read off the curve through the nearest
 * eighths of a diamond. They are then within 0.015 diamond of the solved number, mostly within
 * 0.001. If an eighth next to a start has no number, the start has none either, for the same
 * reason.
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

/** Computes the aim at each speed when it is first read. */
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

/**
 * Returns the aim on the curve through the two eighths around a start and the eighths beyond them,
 * if those have numbers.
 */
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
