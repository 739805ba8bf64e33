/**
 * Computes a correction to the chart's numbers for tonight's table from test shots. It is simple
 * enough to apply in the head. It is one of these: nothing; an amount to add to every number; an
 * amount for the lines with a short first rail or for those with a long first rail, or one for
 * each; a factor. correction-choice.ts decides which.
 */

import { type Chart, lineFrom, patternOf, toDecimal, toNumber } from '../charts/index.ts';
import { aimNamed } from '../table/index.ts';
import {
  type Amount,
  amountOf,
  type Correction,
  chooseFit,
  correctionsOf,
  type NoCorrection,
} from './correction-choice.ts';
import { expectedOf, type Fit, fitsOf } from './correction-fit.ts';
import { beyond, weightOf } from './noise.ts';
import { type Reading, readOn } from './reading.ts';
import type { TableShot } from './shot.ts';

/** A shot in the fit. */
export interface JudgedShot {
  readonly shot: TableShot;
  /**
   * The correction that the shot asks for beyond the fit, in diamonds of aim; 0 if the fit makes
   * the shot.
   */
  readonly residual: number;
  /**
   * The part of its pull on the fit that the shot keeps, 0–1. It is 1 if the shot agrees, near 0 if
   * it is far off.
   */
  readonly weight: number;
}

export interface Tonight {
  /** One correction, or one for each group; empty if there is none. */
  readonly corrections: readonly Correction[];
  readonly why: NoCorrection | null;
  /**
   * The fitted amounts of the correction, or of the plainest fit if there is none; empty without a
   * usable shot.
   */
  readonly amounts: readonly Amount[];
  /** How many times larger the errors are than the coarseness with which people see; ≥ 1. */
  readonly scale: number;
  readonly shots: readonly JudgedShot[];
  /** Shots that, on the chart's table, cannot arrive where they were seen. */
  readonly leftOut: readonly TableShot[];
}

/** The fit doubts a shot that keeps less than this part of its pull. */
export const DOUBTED = 0.5;

/** Returns the correction of the chart's numbers, including measured ones. */
export function correctionOf(chart: Chart, shots: readonly TableShot[]): Tonight {
  const { readings, leftOut } = readingsOf(chart, shots);
  return { ...correctionFrom(readings, (shot) => aimedAsPrinted(chart, shot)), leftOut };
}

/**
 * Reads the shots against the chart. `leftOut` has the shots that cannot arrive where they were
 * seen.
 */
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

/** Returns whether the aim is within half a printed step of the printed number. */
function aimedAsPrinted(chart: Chart, shot: TableShot): boolean {
  const { setting, naming, document } = chart;
  const line = lineFrom(chart, shot.pattern, toDecimal(shot.start));
  if (!line) return false;
  const printed = toNumber(line.numbers[shot.speed].printed);
  const through = aimNamed(setting.table, patternOf(shot.pattern), shot.start, printed, naming);
  const hair = 1e-9;
  return Math.abs(shot.aim - through) <= toNumber(document.printStep) / 2 + hair;
}

/**
 * Returns the correction that follows from readings.
 * @param asPrinted returns whether a shot was aimed at the printed number
 */
function correctionFrom(
  readings: readonly Reading[],
  asPrinted: (shot: TableShot) => boolean = () => false,
): Omit<Tonight, 'leftOut'> {
  const fits = fitsOf(readings);
  const [plain] = fits;
  if (!plain) return { corrections: [], why: 'no shots', amounts: [], scale: 1, shots: [] };
  const { fit, why } = chooseFit(readings, fits, plain, asPrinted);
  return {
    corrections: why === null ? correctionsOf(fit) : [],
    why,
    amounts: fit.amounts.map((one) => amountOf(one, readings.length - fit.amounts.length)),
    scale: fit.scale,
    shots: readings.map((reading) => judged(reading, fit)),
  };
}

function judged(reading: Reading, { amounts, scale }: Fit): JudgedShot {
  const { shot, seen } = reading;
  const expected = expectedOf(reading, amounts);
  return { shot, residual: beyond(seen, expected), weight: weightOf(seen, expected, scale) };
}
