/** Finds the aims of a sheet's lines, solved or given by a chart, with the ball's path. */

import {
  type Flight,
  type Naming,
  playLine,
  type Route,
  type Setting,
  type SolvedLine,
  type Speed,
  type Stroke,
  solveStarts,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, toNumber } from '../document/decimal.ts';
import { bySpeed } from './by-speed.ts';
import type { NumberSource } from './line.ts';
import { shiftOf } from './set-to-measured.ts';

/** A number that a chart has for a line, in diamonds through the sight. */
export interface GivenNumber {
  readonly aim: number;
  readonly source: NumberSource;
}

/**
 * A line with known numbers, whatever the model solves; or with the reason why a number is missing.
 */
export interface GivenLine {
  readonly start: Decimal;
  readonly numbers: Readonly<Record<Speed, GivenNumber | Unreachable>>;
}

export interface SheetRequest {
  readonly setting: Setting;
  readonly route: Route;
  /** Start diamonds, in ascending order. */
  readonly starts: readonly Decimal[];
  readonly printStep: Decimal;
  readonly naming: Naming;
  readonly stroke: Stroke;
  /**
   * How far an interpolated number between two anchors may be from the line's own number, in
   * diamonds.
   */
  readonly anchorBound: number;
  /** Lines with known numbers, at some of the starts. The model is set to these numbers. */
  readonly given?: readonly GivenLine[];
}

/**
 * A number through the sight, and the ball's path with it. The path is null if the ball does not
 * arrive.
 */
export interface Aimed extends GivenNumber {
  /** The model's number, through the sight; null if it has none. */
  readonly solved: number | null;
  /**
   * How much to subtract from an aim before playing it (set-to-measured.ts). It is 0 if the number was
   * computed and not measured.
   */
  readonly shift: number;
  readonly flight: Flight | null;
  /** How many meters the arrival moves per diamond of aim; null if the solver does not know it. */
  readonly drift: number | null;
}

export type SheetAims = Readonly<Record<Speed, Aimed | Unreachable>>;

/**
 * Returns the aims of each start, in order. All starts are solved, because a given number is played
 * as the solved one is. They are solved together, each beginning at its neighbors' numbers, exactly
 * as in the chart (pattern-lines.ts). So the numbers are the chart's to the last bit.
 */
export function sheetAims(request: SheetRequest): readonly SheetAims[] {
  const { setting, route, starts, stroke, given = [] } = request;
  const givenAt = new Map(given.map((line) => [line.start, line]));
  const solved = solveStarts(setting, route, starts.map(toNumber), stroke);
  return starts.map((start, n) => {
    const line = givenAt.get(start);
    return bySpeed((speed) => {
      const own = solved[n]?.[speed];
      if (!own) throw new Error(`no line from ${toNumber(start)}`);
      if (line) return aimedAs(request, start, speed, line.numbers[speed], own);
      return own.why ?? { ...own, source: 'computed', solved: own.aim, shift: 0 };
    });
  });
}

function aimedAs(
  { setting, route, stroke }: SheetRequest,
  start: Decimal,
  speed: Speed,
  number: GivenNumber | Unreachable,
  solved: SolvedLine,
): Aimed | Unreachable {
  if (typeof number === 'string') return number;
  const aimed = { ...number, solved: solved.aim, shift: shiftOf(number.aim, solved) };
  if (solved.why === null) return { ...aimed, flight: solved.flight, drift: solved.drift };
  const launch = { ...stroke, speed: setting.condition.speeds[speed] };
  const flight = playLine(setting, route, toNumber(start), number.aim, launch);
  return { ...aimed, flight: flight?.arrived ? flight : null, drift: null };
}

/**
 * Returns the aim that the model plays: the solved number to the last bit, or the given number if
 * none is solved.
 */
export function playedAim({ aim, solved }: Aimed): number {
  return solved ?? aim;
}
