/** The numbers that a measured line lacks. */

import { divisions, SPEEDS, type Speed, type Unreachable } from '../table/index.ts';
import type { NumberSource } from './chart.ts';
import { toNumber } from './decimal.ts';
import type { MeasuredLine } from './document.ts';
import { monotoneCubic } from './monotone-cubic.ts';
import type { Pattern } from './patterns.ts';
import type { Aims } from './solved.ts';

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

/**
 * All three numbers of a line, diamonds through the sight; or the first speed without one.
 * @param others measured lines of its pattern between which numbers may be interpolated
 * @param computed asked only if a number is neither measured nor interpolated
 */
export function filledIn(
  line: MeasuredLine,
  others: readonly MeasuredLine[],
  pattern: Pattern,
  computed: () => Aims,
): Readonly<Record<Speed, Filled>> | Missing {
  const known = new Map<Speed, Filled>();
  for (const speed of SPEEDS) {
    const own = line[speed];
    const between = own === undefined ? interpolated(line, others, speed) : null;
    if (own !== undefined) known.set(speed, { aim: toNumber(own), source: 'measured' });
    else if (between !== null) known.set(speed, { aim: between, source: 'interpolated' });
  }
  const filled = (speed: Speed): Filled | Missing =>
    known.get(speed) ?? byWindow(speed, known, pattern, computed());
  const numbers = { soft: filled('soft'), medium: filled('medium'), firm: filled('firm') };
  for (const speed of SPEEDS) {
    const number = numbers[speed];
    if ('why' in number) return number;
  }
  return numbers as Readonly<Record<Speed, Filled>>;
}

function interpolated(
  { start }: MeasuredLine,
  others: readonly MeasuredLine[],
  speed: Speed,
): number | null {
  const knots = others.flatMap((other) => {
    const number = other[speed];
    return number === undefined ? [] : [{ x: toNumber(other.start), y: toNumber(number) }];
  });
  return monotoneCubic(knots.sort((a, b) => a.x - b.x))(toNumber(start));
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
