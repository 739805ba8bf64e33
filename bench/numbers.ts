/** Numbers of the one-cushion patterns: time against a plain search on odex, growth, memory. */

import type { Pattern } from '../src/charts/index.ts';
import {
  type Launch,
  mirrorAim,
  missAlong,
  SPEEDS,
  solveStarts,
  targetLine,
} from '../src/table/index.ts';
import { club, oneCushion, startsOf } from './catalogue.ts';
import { compare, type Rate } from './measure.ts';
import { endBy, type Way } from './shots.ts';

const HALF = 0.5;
/** One number in so many is also solved on odex. */
const SAMPLE = 7;
/** The search on odex ends at this miss, meters: the solver's own error at these settings. */
const CLOSE = 1e-4;
const RECOMPUTES = 1000;

/** Solves all lines at three speeds and returns the number of numbers. */
export function solveAll(step: number): number {
  let numbers = 0;
  for (const pattern of oneCushion) {
    numbers += SPEEDS.length * solveStarts(club, pattern, startsOf(pattern, step)).length;
  }
  return numbers;
}

/** Ours over the catalogue, and a secant search from the mirror's number on odex over a sample. */
export function benchNumbers(way: Way): { readonly rates: readonly Rate[]; readonly all: number } {
  const wanted = oneCushion.flatMap((pattern) =>
    startsOf(pattern, HALF).flatMap((start) =>
      SPEEDS.map((name) => ({ pattern, start, launch: { speed: club.condition.speeds[name] } })),
    ),
  );
  const sample = wanted.filter((_, n) => n % SAMPLE === 0);
  const rates = compare([
    { name: 'ours', run: () => solveAll(HALF) },
    {
      name: 'secant on odex',
      run: () => {
        for (const { pattern, start, launch } of sample) secant(pattern, start, launch, way);
        return sample.length;
      },
    },
  ]);
  return { rates, all: wanted.length };
}

/** The number by the general solver; null if the search fails, as it may near a pocket. */
function secant(route: Pattern, start: number, launch: Launch, way: Way): number | null {
  const target = targetLine(club.table, route.target);
  const miss = (aim: number) => {
    const { ball, crossed } = endBy({ setting: club, route, start, aim, launch }, way);
    return crossed ? missAlong(target, ball) : Number.NaN;
  };
  let a = mirrorAim(club.table, route, start);
  let b = a + 0.05;
  let atA = miss(a);
  for (let round = 0; round < 20; round++) {
    const atB = miss(b);
    if (!(Math.abs(atB) >= CLOSE)) return Number.isNaN(atB) ? null : b;
    const next = b - (atB * (b - a)) / (atB - atA);
    a = b;
    atA = atB;
    b = next;
  }
  return null;
}

/** Time per line at one, two and four times the lines, over the first. */
export function benchGrowth(): readonly { readonly lines: number; readonly perLine: number }[] {
  const steps = [HALF, HALF / 2, HALF / 4];
  const rates = compare(steps.map((step) => ({ name: `${step}`, run: () => solveAll(step) })));
  const first = rates[0]?.perSecond ?? Number.NaN;
  return steps.map((step, n) => ({
    lines: solveAll(step) / SPEEDS.length,
    perLine: first / (rates[n]?.perSecond ?? Number.NaN),
  }));
}

/** Growth of the heap in bytes over 1000 recomputes, after garbage collection. */
export function heapGrowth(): { readonly recomputes: number; readonly bytes: number } {
  const settled = () => {
    for (let n = 0; n < 3; n++) globalThis.gc?.();
    return process.memoryUsage().heapUsed;
  };
  for (let n = 0; n < 20; n++) solveAll(HALF);
  const before = settled();
  for (let n = 0; n < RECOMPUTES; n++) solveAll(HALF);
  return { recomputes: RECOMPUTES, bytes: settled() - before };
}
