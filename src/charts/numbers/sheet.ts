/**
 * A pattern worked out in full on one table: numbers, make windows, entry, drift, verdict, anchors.
 * A chart holds numbers only; a sheet is what the pattern page and the `chart` command show.
 */

import {
  aimOf,
  type Ball,
  diamondLength,
  diamondOf,
  type Flight,
  type MakeWindow,
  makeWindowOf,
  missAlong,
  type Naming,
  nameAim,
  playLine,
  type Route,
  type Setting,
  type SolvedLine,
  SPEEDS,
  type Speed,
  type Stroke,
  solveStarts,
  type Unreachable,
} from '../../table/index.ts';
import { type Decimal, roundTo, toNumber } from '../document/decimal.ts';
import { type AnchorPlan, chooseAnchors } from './anchors.ts';
import { shiftOf } from './set-to-measured.ts';
import type { NumberSource } from './source.ts';
import { type Verdict, verdictOf } from './verdict.ts';

/** A number that a chart has for a line, diamonds through the sight. */
export interface GivenNumber {
  readonly aim: number;
  readonly source: NumberSource;
}

/** A line whose numbers are known, whatever the model solves; or why it has none. */
export interface GivenLine {
  readonly start: Decimal;
  readonly numbers: Readonly<Record<Speed, GivenNumber | Unreachable>>;
}

export interface SheetRequest {
  readonly setting: Setting;
  readonly route: Route;
  /** Start diamonds, ascending. */
  readonly starts: readonly Decimal[];
  readonly printStep: Decimal;
  readonly naming: Naming;
  readonly stroke: Stroke;
  /** How far a number between two anchors may be from the line's own, diamonds. */
  readonly anchorBound: number;
  /** Lines whose numbers are known, at some of the starts: the model is set to them. */
  readonly given?: readonly GivenLine[];
}

/** A number at one speed, in the naming asked for. */
export interface SheetNumber {
  /** Diamonds, unrounded. */
  readonly exact: number;
  readonly printed: Decimal;
  readonly source: NumberSource;
  /** The model's number in place of a given one; null if this is the model's, or it has none. */
  readonly model: number | null;
  /** Aim numbers that pocket the ball; null if none does, or the target is a rail. */
  readonly makeWindow: MakeWindow | null;
}

/** How far the arrival moves if the line is not played as printed. */
export interface Drift {
  /** Metres along the target's edge for 0.1 of aim, without sign. */
  readonly perTenth: number;
  /**
   * Metres along the target's edge, without sign, if the ball lies half-way along the line to the
   * first cushion instead of at the start rail; null if it then does not arrive.
   */
  readonly halfWay: number | null;
}

export interface SheetLine {
  readonly start: Decimal;
  readonly numbers: Readonly<Record<Speed, SheetNumber | Unreachable>>;
  /** At medium speed; null if there is no number at it, or the ball does not arrive with it. */
  readonly atMedium: {
    /** Diamond level with the ball where it touches the first cushion, in the aim's count. */
    readonly touch: number;
    /** Angle of the arriving path from straight in (from the perpendicular, at a rail), degrees. */
    readonly entryAngleDeg: number;
    readonly drift: Drift;
  } | null;
  /** Null if the target is a rail, a kick by nature; or if there is no number at any speed. */
  readonly verdict: Verdict | null;
  readonly anchor: boolean;
}

export interface Sheet {
  readonly lines: readonly SheetLine[];
  /** Over the lines that have a number at every speed, in their order. */
  readonly anchors: AnchorPlan;
  /** The index in `lines` of each entry the anchor plan counts. */
  readonly entries: readonly number[];
}

/** A number through the sight, and the ball's way with it; null if it does not arrive. */
interface Aimed extends GivenNumber {
  /** The model's number, through the sight; null where it has none. */
  readonly solved: number | null;
  /** What is taken off an aim before it is played (set-to-measured.ts); 0 for a solved number. */
  readonly shift: number;
  readonly flight: Flight | null;
  /** Metres of arrival for a diamond of aim, where the solver knows it. */
  readonly drift: number | null;
}

type Aims = Readonly<Record<Speed, Aimed | Unreachable>>;

/** Works out a whole pattern: every line at three speeds. */
export function computeSheet(request: SheetRequest): Sheet {
  const { starts } = request;
  const aims = aimsOf(request);
  const bare = starts.map((start, n) => lineOf(request, start, aims[n] as Aims));
  const entries = bare.flatMap((line, n) => (isWhole(line) ? [n] : []));
  const anchors = chooseAnchors(
    entries.map((n) => entryOf(bare[n] as SheetLine)),
    request.anchorBound,
  );
  const chosen = new Set(anchors.chosen.map((index) => entries[index]));
  return { lines: bare.map((line, n) => ({ ...line, anchor: chosen.has(n) })), anchors, entries };
}

/** Has the line a number at every speed. */
export function isWhole(line: SheetLine): boolean {
  return SPEEDS.every((speed) => typeof line.numbers[speed] !== 'string');
}

/**
 * All starts are solved, for a given number is played as the solved one is. They are solved together,
 * as the chart does it (chart.ts): each begins from its neighbours', and so has the chart's number to
 * the last bit.
 */
function aimsOf(request: SheetRequest): readonly Aims[] {
  const { setting, route, starts, stroke, given = [] } = request;
  const known = new Map(given.map((line) => [line.start, line]));
  const solved = solveStarts(setting, route, starts.map(toNumber), stroke);
  return starts.map((start, n) => {
    const line = known.get(start);
    return bySpeed((speed) => {
      const one = solved[n]?.[speed];
      if (!one) throw new Error(`no line from ${toNumber(start)}`);
      if (line) return aimedAs(request, start, speed, line.numbers[speed], one);
      return one.why ?? { ...one, source: 'computed', solved: one.aim, shift: 0 };
    });
  });
}

function aimedAs(
  { setting, route, stroke }: SheetRequest,
  start: Decimal,
  speed: Speed,
  number: GivenNumber | Unreachable,
  one: SolvedLine,
): Aimed | Unreachable {
  if (typeof number === 'string') return number;
  const set = { ...number, solved: one.aim, shift: shiftOf(number.aim, one) };
  if (one.why === null) return { ...set, flight: one.flight, drift: one.drift };
  const launch = { ...stroke, speed: setting.condition.speeds[speed] };
  const flight = playLine(setting, route, toNumber(start), number.aim, launch);
  return { ...set, flight: flight?.arrived ? flight : null, drift: null };
}

function entryOf({ start, numbers }: SheetLine) {
  return { start, numbers: SPEEDS.map((speed) => numbers[speed] as SheetNumber) };
}

function lineOf(request: SheetRequest, start: Decimal, aims: Aims): SheetLine {
  const numbers = bySpeed((speed) => numberOf(request, toNumber(start), speed, aims[speed]));
  const windows = bySpeed((speed) => {
    const number = numbers[speed];
    return typeof number === 'string' ? null : number.makeWindow;
  });
  const banks = request.route.target.kind === 'pocket';
  return {
    start,
    numbers,
    atMedium:
      typeof aims.medium === 'string' ? null : mediumOf(request, toNumber(start), aims.medium),
    verdict:
      banks && SPEEDS.some((speed) => typeof numbers[speed] !== 'string')
        ? verdictOf(windows)
        : null,
    anchor: false,
  };
}

function bySpeed<T>(of: (speed: Speed) => T): Readonly<Record<Speed, T>> {
  return { soft: of('soft'), medium: of('medium'), firm: of('firm') };
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
  const window = makeWindowOf(setting, route, start, launch, playedOf(aimed));
  const exact = named(aim);
  return {
    exact,
    printed: roundTo(exact, printStep),
    source,
    model: source === 'computed' || solved === null ? null : named(solved),
    makeWindow: window && { from: named(window.from + shift), to: named(window.to + shift) },
  };
}

/** The solved number itself, to the last bit; a number that the model has none for, as it is given. */
function playedOf({ aim, solved }: Aimed): number {
  return solved ?? aim;
}

function mediumOf(request: SheetRequest, start: number, aimed: Aimed): SheetLine['atMedium'] {
  const { setting, route } = request;
  const { edge } = aimOf(setting.table, route.target);
  const { flight } = aimed;
  if (!flight) return null;
  const [first] = touchesOf(request, start, aimed, flight);
  if (!first) throw new Error('a line touches its first cushion');
  // A solved line's miss is nothing; where there is none, it is its own, and not what a change makes of it.
  const here = missOf(request, start, playedOf(aimed)) ?? 0;
  return {
    touch: diamondOf(setting.table, route.aim, first.at),
    entryAngleDeg: degreesFrom(edge, flight.end),
    drift: {
      perTenth: perTenth(request, start, aimed, here),
      halfWay: halfWay(request, start, aimed, here),
    },
  };
}

/** Where a line meets its first cushion is the line's own, however the ball plays from there. */
function touchesOf(
  { setting, route, stroke }: SheetRequest,
  start: number,
  { aim, shift }: Aimed,
  { touches }: Flight,
): Flight['touches'] {
  if (shift === 0) return touches;
  const launch = { ...stroke, speed: setting.condition.speeds.medium };
  const own = playLine(setting, route, start, aim, launch)?.touches ?? [];
  return own.length > 0 ? own : touches;
}

function degreesFrom(edge: { readonly nx: number; readonly ny: number }, { vx, vy }: Ball): number {
  const into = edge.nx * vx + edge.ny * vy;
  return (Math.atan2(Math.abs(edge.nx * vy - edge.ny * vx), into) * 180) / Math.PI;
}

/**
 * Played half a tenth to either side; to one side if the ball arrives from no other. The drift that
 * the solver goes by will not do: it may be a neighbouring line's, a third off.
 */
function perTenth(request: SheetRequest, start: number, aimed: Aimed, here: number): number {
  const moved = [-0.05, 0.05].flatMap((half) => {
    const there = missOf(request, start, playedOf(aimed) + half);
    return there === null ? [] : [Math.abs(there - here)];
  });
  const [one, other = one] = moved;
  return one === undefined || other === undefined ? Math.abs(aimed.drift ?? 0) / 10 : one + other;
}

function halfWay(request: SheetRequest, start: number, aimed: Aimed, here: number) {
  const miss = missOf(request, start, playedOf(aimed), { along: 0.5 });
  return miss === null ? null : Math.abs(miss - here);
}

/** How far a ball at medium speed arrives from the target, metres; null if it does not. */
function missOf(
  { setting, route, stroke }: SheetRequest,
  start: number,
  aim: number,
  change: Stroke = {},
): number | null {
  const launch = { ...stroke, speed: setting.condition.speeds.medium, ...change };
  const flight = playLine(setting, route, start, aim, launch);
  return flight?.arrived ? missAlong(aimOf(setting.table, route.target), flight.end) : null;
}

/** Metres of arrival in diamonds of the long rail, the measure for how far a shot misses. */
export function inDiamonds({ table }: Setting, metres: number): number {
  return metres / diamondLength(table, 'left');
}
