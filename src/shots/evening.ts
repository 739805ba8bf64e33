/** Everything that an evening's test shots tell of a table, worked out in one go for a worker. */

import type { PatternId } from '../charts/index.ts';
import {
  type Chart,
  type ChartDocument,
  computeChart,
  type Decimal,
  type Line,
  lastRevision,
  roundTo,
  size,
  stateOn,
  toDecimal,
} from '../charts/index.ts';
import { type Naming, SPEEDS, type Speed } from '../table/index.ts';
import { type Account, judged } from './account.ts';
import type { TableShot } from './arrival.ts';
import type { ConditionAnswer } from './condition-fit.ts';
import type { Tonight } from './correction.ts';
import { type LineSpeed, type NextShot, nextShot, shotsToGo } from './next-shot.ts';

export interface EveningRequest {
  readonly document: ChartDocument;
  readonly naming: Naming;
  readonly shots: readonly TableShot[];
  /** Lines that did not get there tonight: they are not asked again. */
  readonly without?: readonly LineSpeed[];
}

/** What amounts are rounded to when they are said, diamonds. */
const SAID = toDecimal(0.05);

/** A printed number that is another on the fitted table. */
export interface MovedNumber {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly speed: Speed;
  readonly from: Decimal;
  readonly to: Decimal;
}

/** What the numbers of a pattern move by in the mean, to what is said; never 0. */
export interface MovedPattern {
  readonly pattern: PatternId;
  readonly by: Decimal;
}

export interface Evening {
  readonly tonight: Tonight;
  /** See `shotsToGo`. */
  readonly toGo: number | null;
  readonly next: NextShot | null;
  readonly condition: ConditionAnswer;
  /** What explains the shots. */
  readonly account: Account;
  /** Printed numbers that the fitted condition would move; none if it explains nothing. */
  readonly moved: readonly MovedNumber[];
  /** By how much it moves patterns, those that move most first. */
  readonly patterns: readonly MovedPattern[];
}

export function eveningOf({ document, naming, shots, without = [] }: EveningRequest): Evening {
  const chart = computeChart(document, naming);
  const { tonight, condition, account } = judged(chart, shots);
  const other =
    condition.ok && (account === 'table' || account === 'both') ? onTable(chart, condition) : null;
  const on = {
    ...chart.setting,
    condition: condition.ok ? condition.fit.condition : chart.setting.condition,
  };
  const moved = other ? movedNumbers(chart, other) : [];
  return {
    tonight,
    toGo: shotsToGo(tonight),
    next: nextShot(chart, shots, { without, on }),
    condition,
    // A table that moves nothing that is printed is the chart's to a player.
    account: other && moved.length === 0 ? 'chart' : account,
    moved,
    patterns: other ? movedPatterns(chart, other) : [],
  };
}

/** The chart as it would be on the fitted table. */
function onTable(chart: Chart, { fit }: Extract<ConditionAnswer, { readonly ok: true }>): Chart {
  const { document, naming } = chart;
  const revised = { ...lastRevision(document), ...stateOn(chart, fit.condition) };
  return computeChart({ ...document, revisions: [revised] }, naming);
}

/** Lines that both charts have. */
function pairs(from: Chart, to: Chart): readonly (readonly [Line, Line])[] {
  const key = ({ pattern, start }: Line) => `${pattern} ${start}`;
  const after = new Map(to.lines.map((line) => [key(line), line]));
  return from.lines.flatMap((line) => {
    const other = after.get(key(line));
    return other ? [[line, other] as const] : [];
  });
}

/** The mean over a pattern's lines and speeds, as an amount is said. */
export function movedPatterns(from: Chart, to: Chart): readonly MovedPattern[] {
  const both = pairs(from, to);
  const moved = from.patterns.flatMap((pattern): readonly MovedPattern[] => {
    const moves = both
      .filter(([line]) => line.pattern === pattern)
      .flatMap(([line, other]) =>
        SPEEDS.map((speed) => other.numbers[speed].exact - line.numbers[speed].exact),
      );
    if (moves.length === 0) return [];
    const by = roundTo(moves.reduce((sum, move) => sum + move, 0) / moves.length, SAID);
    return by === 0 ? [] : [{ pattern, by }];
  });
  return [...moved].sort((a, b) => size(b.by) - size(a.by));
}

/** Numbers of lines that both charts have, and that are printed otherwise. */
export function movedNumbers(from: Chart, to: Chart): readonly MovedNumber[] {
  return pairs(from, to).flatMap(([line, other]) => {
    const { pattern, start } = line;
    return SPEEDS.flatMap((speed): readonly MovedNumber[] => {
      const [was, is] = [line.numbers[speed].printed, other.numbers[speed].printed];
      return was === is ? [] : [{ pattern, start, speed, from: was, to: is }];
    });
  });
}
