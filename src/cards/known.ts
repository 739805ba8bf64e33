/**
 * What a player knows about a start before working anything out: the numbers of two targets on the
 * same rail. Balls may be asked between these two targets.
 */

import {
  type Chart,
  type Decimal,
  type Line,
  type Pattern,
  type PatternId,
  patternOf,
  toDecimal,
  toNumber,
} from '../charts/index.ts';
import {
  arrivalCount,
  type Count,
  divisions,
  isLongRail,
  type PocketName,
  pocketInRail,
  pointAt,
  type Rail,
  type Speed,
} from '../table/index.ts';

/**
 * A target on a rail that has a known number: a pocket, or the place to which a ball comes straight
 * back.
 */
export interface Known {
  /** Its place in the rail's count; pockets are at 0, 4 and 8. */
  readonly at: Decimal;
  readonly printed: Decimal;
  /** The number, unrounded. */
  readonly exact: number;
  /** Null for a line straight across: its ball comes straight back. */
  readonly pocket: PocketName | null;
  /** The chart's line with that number; null for a line straight across. */
  readonly line: Line | null;
}

/** Two targets closer together than this, one diamond, leave no room for a ball between them. */
const ROOM = toDecimal(1);

/** Two neighboring known targets of one start, in ascending order along the rail. */
export interface Between {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly count: Count;
  readonly known: readonly [Known, Known];
}

/**
 * Returns the stretches of rail that belong to a pattern: those beside its own target. A stretch
 * between the pockets of two patterns belongs to the pattern with the lower pocket.
 */
export function betweensOf(chart: Chart, id: PatternId, speed: Speed): readonly Between[] {
  const family = familyOf(chart, patternOf(id));
  return railsOf(patternOf(id)).flatMap((count) =>
    chart.lines
      .filter((line) => line.pattern === id && !startsInPocket(chart, id, line.start))
      .flatMap((line) => beside(family, line, count, speed)),
  );
}

/** The lines that share a pattern's path up to the last cushion, grouped by start. */
type Family = ReadonlyMap<Decimal, readonly Line[]>;

function familyOf(chart: Chart, pattern: Pattern): Family {
  const relatives = new Set(chart.patterns.filter((id) => sharesPath(patternOf(id), pattern)));
  const family = new Map<Decimal, Line[]>();
  for (const line of chart.lines) {
    if (!relatives.has(line.pattern)) continue;
    const known = family.get(line.start);
    if (known) known.push(line);
    else family.set(line.start, [line]);
  }
  return family;
}

/** Returns whether the start is in the mouth of a pocket, where no ball can touch the rail. */
export function startsInPocket({ setting }: Chart, id: PatternId, start: Decimal): boolean {
  const { start: count } = patternOf(id);
  const place = pointAt(setting.table, count, toNumber(start));
  return pocketInRail(setting.table, count.rail, place) !== null;
}

function beside(family: Family, line: Line, count: Count, speed: Speed): readonly Between[] {
  const known = knownOn(family, line, count, speed);
  return known.slice(1).flatMap((to, n) => {
    const from = known[n] as Known;
    const owner = from.pocket === null ? to.pocket : from.pocket;
    const { target } = patternOf(line.pattern);
    if (target.kind !== 'pocket' || owner !== target.pocket || to.at - from.at < ROOM) return [];
    return [{ pattern: line.pattern, start: line.start, count, known: [from, to] as const }];
  });
}

/** Returns the known targets of a line's start on a rail, in ascending order. */
function knownOn(family: Family, line: Line, count: Count, speed: Speed): readonly Known[] {
  const pattern = patternOf(line.pattern);
  const pockets = (family.get(line.start) ?? []).flatMap((one) => pocketOn(one, count, speed));
  const known = [...pockets, ...straightBack(pattern, line.start, count)];
  const sorted = known.sort((a, b) => a.at - b.at);
  return sorted.filter((one, n) => n === 0 || one.at > (sorted[n - 1] as Known).at);
}

function pocketOn(line: Line, count: Count, speed: Speed): readonly Known[] {
  const { target } = patternOf(line.pattern);
  if (target.kind !== 'pocket') return [];
  const at = placeOf(target.pocket, count);
  if (at === null) return [];
  return [{ at: toDecimal(at), ...line.numbers[speed], pocket: target.pocket, line }];
}

/**
 * Returns the known target of a line straight across, if there is one. A ball that is struck in the
 * center and goes straight across comes back to its start.
 */
function straightBack(pattern: Pattern, start: Decimal, count: Count): readonly Known[] {
  const { start: from, aim, cushions, stroke } = pattern;
  const across = cushions.length === 1 && isLongRail(from.rail) === isLongRail(aim.rail);
  const sameCount = count.rail === from.rail && count.from === from.from && aim.from === from.from;
  if (!across || !sameCount || stroke?.running) return [];
  return [{ at: start, printed: start, exact: toNumber(start), pocket: null, line: null }];
}

/**
 * Returns whether two patterns share their path up to the last cushion, so that their numbers can
 * be compared.
 */
function sharesPath(a: Pattern, b: Pattern): boolean {
  return (
    sameCounts(a.start, b.start) &&
    sameCounts(a.aim, b.aim) &&
    a.cushions.join() === b.cushions.join() &&
    (a.stroke?.running ?? 0) === (b.stroke?.running ?? 0)
  );
}

function sameCounts(a: Count, b: Count): boolean {
  return a.rail === b.rail && a.from === b.from;
}

/**
 * Returns the rails that meet at a pattern's pocket, each in the count by which players name it.
 */
function railsOf(pattern: Pattern): readonly Count[] {
  const { target } = pattern;
  if (target.kind !== 'pocket') return [];
  const named = target.pocket.split('-') as (Rail | 'side')[];
  const rails = named.filter((part): part is Rail => part !== 'side');
  return rails
    .filter((rail) => rail !== pattern.cushions[pattern.cushions.length - 1])
    .map((rail) => countOn(pattern, rail));
}

/**
 * Returns a pattern's own count of a rail. It is the count of its kicks or of its start if that is
 * on this rail, and else the count from foot or left.
 */
export function countOn(pattern: Pattern, rail: Rail): Count {
  if (pattern.kicks.rail === rail) return pattern.kicks;
  if (pattern.start.rail === rail) return pattern.start;
  return arrivalCount(pattern.target, rail);
}

/** Returns a pocket's place in a rail's count; null if the pocket is not on that rail. */
export function placeOf(pocket: PocketName, count: Count): number | null {
  const parts = pocket.split('-');
  if (!parts.includes(count.rail)) return null;
  if (parts.includes('side')) return 4;
  return parts.includes(count.from) ? 0 : divisions(count.rail);
}
