/**
 * One correction for tonight's table: what to do to the chart's numbers, from test shots, so that it
 * can be carried in the head. Nothing, one amount for all numbers, one for those of a short or of a
 * long first rail, or one factor; correction-choice.ts decides which.
 */

import type { Chart } from '../charts/index.ts';
import { patternOf, toDecimal, toNumber } from '../charts/index.ts';
import { aimNamed } from '../table/index.ts';
import type { TableShot } from './arrival.ts';
import {
  type Amount,
  amountOf,
  type Correction,
  choice,
  type NoCorrection,
  saidOf,
} from './correction-choice.ts';
import { expectedOf, type Fit, fitsOf } from './correction-fit.ts';
import { beyond, weightOf } from './noise.ts';
import { type Reading, readOn } from './reading.ts';

/** A shot in the fit. */
export interface JudgedShot {
  readonly shot: TableShot;
  /** The correction it asks for by itself, less what is fitted, diamonds of aim; 0 if that is made. */
  readonly left: number;
  /** The part of its pull that it keeps, 0–1: 1 if it agrees, little if it is far off. */
  readonly weight: number;
}

export interface Tonight {
  /** One correction, or one for each group; none if there is nothing to say. */
  readonly say: readonly Correction[];
  readonly why: NoCorrection | null;
  /** What is said, or would be, as fitted; empty without a shot that says something. */
  readonly amounts: readonly Amount[];
  /** Errors are so many times the coarseness with which numbers and arrivals are told; ≥ 1. */
  readonly scale: number;
  readonly shots: readonly JudgedShot[];
  /** Shots that on the chart's table do not get where they were seen: they are left out. */
  readonly leftOut: readonly TableShot[];
}

/** Below this part of its pull a shot is one that the fit sets little store by. */
export const DOUBTED = 0.5;

/** What to do to the chart's numbers: its measured ones too, whose table is the one they were measured on. */
export function correctionOf(chart: Chart, shots: readonly TableShot[]): Tonight {
  const { readings, leftOut } = readingsOf(chart, shots);
  return { ...correctionFrom(readings, (shot) => aimedAsPrinted(chart, shot)), leftOut };
}

/** What the shots ask of the chart's numbers, and those that could not have got where they were seen. */
export function readingsOf(chart: Chart, shots: readonly TableShot[]) {
  const readings: Reading[] = [];
  const leftOut: TableShot[] = [];
  for (const shot of shots) {
    const reading = readOn(chart, shot);
    if (reading) readings.push(reading);
    else leftOut.push(shot);
  }
  return { readings, leftOut } as const;
}

/** To half the chart's printed step. */
function aimedAsPrinted({ setting, naming, lines, document }: Chart, shot: TableShot): boolean {
  const start = toDecimal(shot.start);
  const line = lines.find((one) => one.pattern === shot.pattern && one.start === start);
  if (!line) return false;
  const printed = toNumber(line.numbers[shot.speed].printed);
  const through = aimNamed(setting.table, patternOf(shot.pattern), shot.start, printed, naming);
  const hair = 1e-9;
  return Math.abs(shot.aim - through) <= toNumber(document.printStep) / 2 + hair;
}

/**
 * The same from readings.
 * @param asPrinted was a shot aimed at the printed number
 */
export function correctionFrom(
  readings: readonly Reading[],
  asPrinted: (shot: TableShot) => boolean = () => false,
): Omit<Tonight, 'leftOut'> {
  const fits = fitsOf(readings);
  const [plain] = fits;
  if (!plain) return { say: [], why: 'no shots', amounts: [], scale: 1, shots: [] };
  const { fit, why } = choice(readings, fits, plain, asPrinted);
  return {
    say: why === null ? saidOf(fit) : [],
    why,
    amounts: fit.blocks.map((block) => amountOf(block, readings.length - fit.blocks.length)),
    scale: fit.scale,
    shots: readings.map((reading) => judged(reading, fit)),
  };
}

function judged(reading: Reading, { blocks, scale }: Fit): JudgedShot {
  const { shot, seen } = reading;
  const expected = expectedOf(reading, blocks);
  return { shot, left: beyond(seen, expected), weight: weightOf(seen, expected, scale) };
}
