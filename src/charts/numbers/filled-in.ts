/** Fills in the missing numbers of a measured line. */

import { divisions, SPEEDS, type Speed, type Unreachable } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { MeasuredLine } from '../document/document.ts';
import type { Pattern } from '../document/patterns.ts';
import type { NumberSource } from './line.ts';
import { monotoneCubic } from './monotone-cubic.ts';
import type { Aims } from './solved.ts';

interface Filled {
  readonly aim: number;
  readonly source: NumberSource;
}

export type Missing = { readonly speed: Speed; readonly why: Unreachable };

/** The speeds from which a missing number is derived, best first. */
const NEAREST: Readonly<Record<Speed, readonly Speed[]>> = {
  soft: ['medium', 'firm'],
  medium: ['soft', 'firm'],
  firm: ['medium', 'soft'],
};

/**
 * Returns a pattern's interpolated number at a speed and start; null outside the pattern's measured
 * numbers.
 */
export type Between = (speed: Speed, start: Decimal) => number | null;

export const NOTHING_BETWEEN: Between = () => null;

/** Interpolates a pattern's measured numbers, with one curve for all its lines. */
export function betweenMeasured(lines: readonly MeasuredLine[]): Between {
  const curves = new Map(SPEEDS.map((speed) => [speed, curveAt(lines, speed)]));
  return (speed, start) => curves.get(speed)?.(toNumber(start)) ?? null;
}

function curveAt(lines: readonly MeasuredLine[], speed: Speed) {
  const knots = lines.flatMap((line) => {
    const number = line[speed];
    return number === undefined ? [] : [{ x: toNumber(line.start), y: toNumber(number) }];
  });
  return monotoneCubic(knots.sort((a, b) => a.x - b.x));
}

/**
 * Returns all three numbers of a line, in diamonds through the sight; or the first speed without a
 * number.
 * @param between interpolates the pattern's measured numbers, if the chart allows that
 * @param computed called only if a number is neither measured nor interpolated; its result is read
 *   only at the speeds needed
 */
export function filledIn(
  line: MeasuredLine,
  between: Between,
  pattern: Pattern,
  computed: () => Aims,
): Readonly<Record<Speed, Filled>> | Missing {
  const known = knownNumbers(line, between);
  const numbers = new Map<Speed, Filled>();
  for (const speed of SPEEDS) {
    const number = known.get(speed) ?? byWindow(speed, known, pattern, computed());
    if ('why' in number) return number;
    numbers.set(speed, number);
  }
  return Object.fromEntries(numbers) as Readonly<Record<Speed, Filled>>;
}

function knownNumbers(line: MeasuredLine, between: Between): ReadonlyMap<Speed, Filled> {
  const known = new Map<Speed, Filled>();
  for (const speed of SPEEDS) {
    const own = line[speed];
    const inside = own === undefined ? between(speed, line.start) : null;
    if (own !== undefined) known.set(speed, { aim: toNumber(own), source: 'measured' });
    else if (inside !== null) known.set(speed, { aim: inside, source: 'interpolated' });
  }
  return known;
}

/** Returns the known number at another speed plus the solved difference between the two speeds. */
function byWindow(
  speed: Speed,
  known: ReadonlyMap<Speed, Filled>,
  pattern: Pattern,
  computed: Aims,
): Filled | Missing {
  const here = computed[speed];
  if (here.aim === null) return { speed, why: here.why };
  for (const near of NEAREST[speed]) {
    const there = known.get(near);
    const { aim } = computed[near];
    if (!there || aim === null) continue;
    const derived = there.aim + here.aim - aim;
    const onRail = derived >= 0 && derived <= divisions(pattern.aim.rail);
    return onRail ? { aim: derived, source: 'by window' } : { speed, why: 'no aim on this rail' };
  }
  return { speed, why: 'no aim on this rail' };
}
