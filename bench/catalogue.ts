/** The whole catalogue of the 9 ft table: numbers, windows, how the cost grows, what is allocated. */

import {
  anchorBound,
  computeSheet,
  PATTERNS,
  type Pattern,
  toDecimal,
} from '../src/charts/index.ts';
import { CLUB_CLOTH, type Setting, solveStarts, TABLES } from '../src/table/index.ts';
import { median } from './measure.ts';

const setting: Setting = { table: TABLES['9ft'], condition: CLUB_CLOTH };
const patterns: readonly Pattern[] = PATTERNS;
const single = patterns.filter((pattern) => pattern.cushions.length === 1);
const ROUNDS = 15;
const RECOMPUTES = 1000;
/** Operations of one Dormand & Prince step: 6 evaluations of some 70, and 250 to put them together. */
export const FLOPS_PER_STEP = 6 * 70 + 250;

export interface CatalogueBench {
  readonly lines: number;
  /** Milliseconds, medians: the one-cushion numbers; everything with windows. */
  readonly numbersMs: number;
  readonly catalogueMs: number;
  /** Cost of a line of one-cushion numbers at half, quarter and eighth starts, against half starts. */
  readonly perLine: readonly number[];
  /** Bytes by which the heap has grown after the recomputes. */
  readonly grownBytes: number;
  readonly recomputes: number;
}

export function benchCatalogue(): CatalogueBench {
  return {
    lines: patterns.reduce((sum, pattern) => sum + startsOf(pattern, 0.5).length, 0),
    numbersMs: timed(() => numbers(0.5)),
    catalogueMs: timed(catalogue),
    perLine: perLine(),
    grownBytes: growth(),
    recomputes: RECOMPUTES,
  };
}

function startsOf({ starts: [first, last] }: Pattern, step: number): readonly number[] {
  return Array.from({ length: Math.floor((last - first) / step) + 1 }, (_, n) => first + n * step);
}

/** @returns how many lines there were */
function numbers(step: number): number {
  let lines = 0;
  for (const pattern of single) {
    lines += solveStarts(setting, pattern, startsOf(pattern, step)).length;
  }
  return lines;
}

function catalogue(): number {
  let lines = 0;
  for (const pattern of patterns) {
    const sheet = computeSheet({
      setting,
      route: pattern,
      starts: startsOf(pattern, 0.5).map(toDecimal),
      printStep: toDecimal(0.1),
      naming: 'through',
      stroke: pattern.stroke ?? {},
      anchorBound: anchorBound(toDecimal(0.1)),
    });
    lines += sheet.lines.length;
  }
  return lines;
}

function timed(run: () => number): number {
  for (let n = 0; n < 5; n++) run();
  return median(
    Array.from({ length: ROUNDS }, () => {
      const start = performance.now();
      run();
      return performance.now() - start;
    }),
  );
}

function perLine(): readonly number[] {
  const each = [0.5, 0.25, 0.125].map((step) => timed(() => numbers(step)) / numbers(step));
  return each.map((cost) => cost / (each[0] as number));
}

function growth(): number {
  const collect = globalThis.gc;
  if (!collect) throw new Error('run node with --expose-gc');
  for (let n = 0; n < 20; n++) numbers(0.5);
  collect();
  const before = process.memoryUsage().heapUsed;
  for (let n = 0; n < RECOMPUTES; n++) numbers(0.5);
  collect();
  return process.memoryUsage().heapUsed - before;
}

/** Multiply-adds per second of a loop that does nothing else: the floor a shot is measured against. */
export function flopRate(): number {
  const run = (): number => {
    let a = 1;
    let b = 1.1;
    let c = 1.2;
    let d = 1.3;
    for (let n = 0; n < 5_000_000; n++) {
      a = a * 0.999999 + 1e-9;
      b = b * 0.999998 + 1e-9;
      c = c * 0.999997 + 1e-9;
      d = d * 0.999996 + 1e-9;
    }
    return a + b + c + d;
  };
  const ms = timed(run);
  return (8 * 5_000_000 * 1000) / ms;
}

/** How many times the floor a shot takes, if it were nothing but the steps of its impact. */
export function timesTheFloor(shotsPerSecond: number, stepsPerShot: number, rate: number): number {
  return rate / shotsPerSecond / (stepsPerShot * FLOPS_PER_STEP);
}
