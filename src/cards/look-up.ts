/**
 * Looks up a shot: every path in the catalog from any place on a rail to any pocket or point of a
 * rail, in all four mirror images. Looking up does not affect the player's memory.
 */

import {
  type Chart,
  type Decimal,
  isMeasured,
  kickTo,
  type LineNumber,
  launchOf,
  lineFrom,
  minus,
  numberAt,
  numberOrWhy,
  PATTERNS,
  type Pattern,
  type PatternId,
  roundTo,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import {
  aimNamed,
  ballOnLine,
  type Count,
  divisions,
  MIRRORS,
  type Mirror,
  mirrorCount,
  mirrorPocket,
  mirrorRail,
  passCushions,
  SPEEDS,
  type Speed,
  strikesFirst,
  type Target,
  targetPoint,
  type Unreachable,
} from '../table/index.ts';

/** A place on a rail, in either of the rail's two counts. */
export interface RailPlace {
  readonly count: Count;
  readonly diamond: Decimal;
}

/** Why a path has no number at one speed. */
export type NoNumber = Unreachable | 'meets its ball first' | 'not measured';

/** A path from start to target. Counts and numbers are the pattern's own, as they are printed. */
export interface FoundPath {
  readonly pattern: PatternId;
  /** The mirror image that turns the pattern into the shot that was looked up. */
  readonly mirror: Mirror;
  /** The pattern itself, or a kick along it. */
  readonly route: Pattern;
  readonly start: Decimal;
  readonly numbers: Readonly<Record<Speed, LineNumber | NoNumber>>;
  /** Whether the numbers are those of a line of the chart; if not, they are computed. */
  readonly onChart: boolean;
}

/** A path that cannot be played. */
export interface MissedPath {
  readonly pattern: PatternId;
  readonly mirror: Mirror;
  readonly route: Pattern;
  readonly start: Decimal;
  /** `beyond its starts` means that the pattern is not played from this start. */
  readonly why: NoNumber | 'beyond its starts';
}

export interface LookedUp {
  /**
   * The paths with the fewest cushions come first, then those with the smallest start in the
   * pattern's own count.
   */
  readonly found: readonly FoundPath[];
  readonly missed: readonly MissedPath[];
}

type Candidate = Pick<FoundPath, 'pattern' | 'mirror' | 'route' | 'start'>;

export function lookUp(chart: Chart, from: RailPlace, target: Target): LookedUp {
  const found: FoundPath[] = [];
  const missed: MissedPath[] = [];
  for (const candidate of candidatesFor(from, target)) {
    if (!startsThere(candidate)) {
      missed.push({ ...candidate, why: 'beyond its starts' });
      continue;
    }
    const path = pathOf(chart, candidate);
    const { medium } = path.numbers;
    const none = SPEEDS.every((speed) => typeof path.numbers[speed] === 'string');
    if (none && typeof medium === 'string') missed.push({ ...candidate, why: medium });
    else found.push(path);
  }
  return { found: [...found].sort(simplerFirst), missed };
}

/**
 * Returns each path once. The same path can come from two images of one pattern, or be a kick along
 * two patterns.
 */
function candidatesFor(from: RailPlace, target: Target): readonly Candidate[] {
  const paths = new Map<string, Candidate>();
  for (const pattern of PATTERNS) {
    for (const mirror of MIRRORS) {
      const candidate = candidateOf(pattern, mirror, from, target);
      if (!candidate) continue;
      const key = keyOf(candidate);
      const before = paths.get(key);
      if (!before || isBetter(candidate, before)) paths.set(key, candidate);
    }
  }
  return [...paths.values()];
}

function candidateOf(
  pattern: Pattern & { readonly id: PatternId },
  mirror: Mirror,
  from: RailPlace,
  target: Target,
): Candidate | null {
  const count = mirrorCount(pattern.start, mirror);
  const route = routeTo(pattern, mirror, target);
  if (count.rail !== from.count.rail || !route) return null;
  return { pattern: pattern.id, mirror, route, start: inCount(from, count) };
}

/**
 * Returns the pattern, or a kick along it, that ends at the target in this image; null if there is
 * none.
 */
function routeTo(pattern: Pattern, mirror: Mirror, target: Target): Pattern | null {
  if (target.kind === 'pocket') {
    const own = pattern.target;
    const same = own.kind === 'pocket' && mirrorPocket(own.pocket, mirror) === target.pocket;
    return same ? pattern : null;
  }
  const kicks = mirrorCount(pattern.kicks, mirror);
  if (kicks.rail !== target.count.rail) return null;
  const at = inCount({ count: target.count, diamond: toDecimal(target.diamond) }, kicks);
  return kickTo(pattern, toNumber(at), target.off);
}

/** Converts a place to the diamond in another count of the same rail. */
export function inCount({ count, diamond }: RailPlace, other: Count): Decimal {
  if (count.from === other.from) return diamond;
  return minus(toDecimal(divisions(count.rail)), diamond);
}

/**
 * Returns a key for a candidate's path. All candidates share start and target, so cushions and
 * stroke are enough to tell them apart.
 */
function keyOf({ route, mirror }: Candidate): string {
  const cushions = route.cushions.map((rail) => mirrorRail(rail, mirror));
  return `${cushions.join()} ${route.stroke?.running ?? 0}`;
}

/**
 * Returns whether the first of two candidates for the same path is the better one. A candidate that
 * can be played from this start wins; if both can, the first in the catalog wins. Of two images of
 * one pattern, the one in which the ball goes up the count wins, because it also does so on the way
 * to the pattern's pocket. None of this depends on the image in which the shot was looked up, so a
 * shot has the same numbers in all four.
 */
function isBetter(one: Candidate, before: Candidate): boolean {
  if (startsThere(one) !== startsThere(before)) return startsThere(one);
  return one.pattern === before.pattern && upTheCount(one) > upTheCount(before);
}

function upTheCount({ route: { target }, start }: Candidate): number {
  return target.kind === 'rail' ? target.diamond - toNumber(start) : 0;
}

function startsThere({ route, start }: Candidate): boolean {
  const [first, last] = route.starts;
  return toDecimal(first) <= start && start <= toDecimal(last);
}

function simplerFirst(a: FoundPath, b: FoundPath): number {
  return a.route.cushions.length - b.route.cushions.length || a.start - b.start;
}

function pathOf(chart: Chart, candidate: Candidate): FoundPath {
  const { pattern, route, start } = candidate;
  const own = route.target.kind === 'pocket' ? lineFrom(chart, pattern, start) : null;
  const number = (speed: Speed) => own?.numbers[speed] ?? compute(chart, candidate, speed);
  const numbers = { soft: number('soft'), medium: number('medium'), firm: number('firm') };
  return { ...candidate, numbers, onChart: own !== null };
}

function compute(chart: Chart, candidate: Candidate, speed: Speed): LineNumber | NoNumber {
  const { route, start } = candidate;
  const kick = route.target.kind === 'rail';
  const exact = kick
    ? numberOrWhy(chart, route, start, speed)
    : numberIntoPocket(chart, candidate, speed);
  if (typeof exact === 'string') return exact;
  if (kick && meetsFirst(chart, candidate, exact, speed)) return 'meets its ball first';
  return { exact, printed: roundTo(exact, chart.document.printStep) };
}

function numberIntoPocket(
  chart: Chart,
  { pattern, route, start }: Candidate,
  speed: Speed,
): number | NoNumber {
  const number = numberAt(chart, pattern, start, speed);
  if (number !== null) return number;
  const measured = chart.document.basis === 'measured' || isMeasured(chart, pattern);
  return measured ? 'not measured' : numberOrWhy(chart, route, start, speed);
}

/** Returns whether the ball meets its target ball before it has left the last cushion. */
function meetsFirst(
  chart: Chart,
  { route, start }: Candidate,
  exact: number,
  speed: Speed,
): boolean {
  const { setting, naming } = chart;
  const from = toNumber(start);
  const aim = aimNamed(setting.table, route, from, exact, naming);
  const ball = ballOnLine(setting, route, from, aim, launchOf(chart, route, speed));
  if (!ball) return true;
  const { stretches } = passCushions(setting, ball, route.cushions);
  return strikesFirst(setting.table, stretches, targetPoint(setting.table, route.target));
}
