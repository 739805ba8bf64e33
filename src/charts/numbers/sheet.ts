/**
 * Computes the full sheet of a pattern on one table: numbers, make windows, entry, drift, verdict
 * and anchors. A chart has only numbers; the pattern page and the `chart` command show a sheet.
 */

import {
  type MakeWindow,
  makeWindowOf,
  nameAim,
  SPEEDS,
  type Speed,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, roundTo, toNumber } from '../document/decimal.ts';
import { type AnchorPlan, chooseAnchors } from './anchor-plan.ts';
import { bySpeed } from './by-speed.ts';
import type { NumberSource } from './line.ts';
import {
  type Aimed,
  playedAim,
  type SheetAims,
  type SheetRequest,
  sheetAims,
} from './sheet-aims.ts';
import { type Arrival, arrivalOf } from './sheet-arrival.ts';
import { type Verdict, verdictOf } from './verdict.ts';

/** A number at one speed, in the requested naming. */
export interface SheetNumber {
  /** The number in diamonds, unrounded. */
  readonly exact: number;
  readonly printed: Decimal;
  readonly source: NumberSource;
  /**
   * The model's number if this one is given; null if this one is the model's, or if the model has
   * none.
   */
  readonly model: number | null;
  /** The aim numbers that pocket the ball; null if none does, or if the target is a rail. */
  readonly makeWindow: MakeWindow | null;
}

export interface SheetLine {
  readonly start: Decimal;
  readonly numbers: Readonly<Record<Speed, SheetNumber | Unreachable>>;
  /**
   * The arrival at medium speed; null if there is no number at that speed, or if the ball does not
   * arrive with it.
   */
  readonly atMedium: Arrival | null;
  /**
   * How far to trust the line; null if the target is a rail, which makes the line a kick, or if
   * there is no number at any speed.
   */
  readonly verdict: Verdict | null;
  readonly anchor: boolean;
}

export interface Sheet {
  readonly lines: readonly SheetLine[];
  /** The anchor plan of the lines that have a number at every speed, in their order. */
  readonly anchors: AnchorPlan;
  /** The index in `lines` of each entry of the anchor plan. */
  readonly entries: readonly number[];
}

/** Computes the sheet of a whole pattern: every line at three speeds. */
export function computeSheet(request: SheetRequest): Sheet {
  const { starts } = request;
  const aims = sheetAims(request);
  const lines = starts.map((start, n) => lineOf(request, start, aims[n] as SheetAims));
  const entries = lines.flatMap((line, n) => (isWhole(line) ? [n] : []));
  const anchors = chooseAnchors(
    entries.map((n) => entryOf(lines[n] as SheetLine)),
    request.anchorBound,
  );
  const chosen = new Set(anchors.chosen.map((index) => entries[index]));
  return { lines: lines.map((line, n) => ({ ...line, anchor: chosen.has(n) })), anchors, entries };
}

/** Returns whether the line has a number at every speed. */
export function isWhole(line: SheetLine): boolean {
  return SPEEDS.every((speed) => typeof line.numbers[speed] !== 'string');
}

function entryOf({ start, numbers }: SheetLine) {
  return { start, numbers: SPEEDS.map((speed) => numbers[speed] as SheetNumber) };
}

/** Computes a line without its `anchor`, because anchors are chosen from all lines together. */
function lineOf(request: SheetRequest, start: Decimal, aims: SheetAims): SheetLine {
  const numbers = bySpeed((speed) => numberOf(request, toNumber(start), speed, aims[speed]));
  const { medium } = aims;
  return {
    start,
    numbers,
    atMedium: typeof medium === 'string' ? null : arrivalOf(request, toNumber(start), medium),
    verdict: request.route.target.kind === 'pocket' ? verdictOn(numbers) : null,
    anchor: false,
  };
}

function verdictOn(numbers: SheetLine['numbers']): Verdict | null {
  if (SPEEDS.every((speed) => typeof numbers[speed] === 'string')) return null;
  const windows = bySpeed((speed) => {
    const number = numbers[speed];
    return typeof number === 'string' ? null : number.makeWindow;
  });
  return verdictOf(windows);
}

function numberOf(
  request: SheetRequest,
  start: number,
  speed: Speed,
  aimed: Aimed | Unreachable,
): SheetNumber | Unreachable {
  if (typeof aimed === 'string') return aimed;
  const { setting, route, stroke, naming, printStep } = request;
  const launch = { ...stroke, speed: setting.condition.speeds[speed] };
  const named = (aim: number) => nameAim(setting.table, route, start, aim, naming);
  const { aim, source, solved, shift } = aimed;
  const window = makeWindowOf(setting, route, start, launch, playedAim(aimed));
  const exact = named(aim);
  return {
    exact,
    printed: roundTo(exact, printStep),
    source,
    model: source === 'computed' || solved === null ? null : named(solved),
    makeWindow: window && { from: named(window.from + shift), to: named(window.to + shift) },
  };
}
