/** The numbers that a measured line lacks. */

import { divisions, SPEEDS, type Speed, type Unreachable } from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import type { MeasuredLine } from '../document/document.ts';
import type { Pattern } from '../document/patterns.ts';
import { monotoneCubic } from './monotone-cubic.ts';
import type { Aims } from './solved.ts';
import type { NumberSource } from './source.ts';

interface Filled {
  readonly aim: number;
  readonly source: NumberSource;
}

export type Missing = { readonly speed: Speed; readonly why: Unreachable };

/** A number is carried over from the nearest speed that has one, medium before the others. */
const NEAREST: Readonly<Record<Speed, readonly Speed[]>> = {
  soft: ['medium', 'firm'],
  medium: ['soft', 'firm'],
  firm: ['medium', 'soft'],
};

/** What a pattern's measured numbers say between them at a speed; null where they say nothing. */
export type Between = (speed: Speed, start: Decimal) => number | null;

export const NOTHING_BETWEEN: Between = () => null;

/** The curve through the measured numbers of a pattern, drawn once for all of its lines. */
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
 * All three numbers of a line, diamonds through the sight; or the first speed without one.
 * @param between of the measured lines of its pattern, where numbers may be interpolated
 * @param computed asked only if a number is neither measured nor interpolated, and at no speed more
 *   than it takes
 */
export function filledIn(
  line: MeasuredLine,
  between: Between,
  pattern: Pattern,
  computed: () => Aims,
): Readonly<Record<Speed, Filled>> | Missing {
  const known = new Map<Speed, Filled>();
  for (const speed of SPEEDS) {
    const own = line[speed];
    const inside = own === undefined ? between(speed, line.start) : null;
    if (own !== undefined) known.set(speed, { aim: toNumber(own), source: 'measured' });
    else if (inside !== null) known.set(speed, { aim: inside, source: 'interpolated' });
  }
  const numbers = new Map<Speed, Filled>();
  for (const speed of SPEEDS) {
    const number = known.get(speed) ?? byWindow(speed, known, pattern, computed());
    if ('why' in number) return number;
    numbers.set(speed, number);
  }
  return Object.fromEntries(numbers) as Readonly<Record<Speed, Filled>>;
}

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
    const carried = there.aim + here.aim - aim;
    const onRail = carried >= 0 && carried <= divisions(pattern.aim.rail);
    return onRail ? { aim: carried, source: 'by window' } : { speed, why: 'no aim on this rail' };
  }
  return { speed, why: 'no aim on this rail' };
}
