/**
 * Computes everything that an evening's test shots tell about a table, in one call for a worker.
 */

import {
  type Chart,
  type ChartDocument,
  chartWith,
  computeChart,
  type Decimal,
  type Line,
  type PatternId,
  placeKey,
  roundTo,
  size,
  stateOn,
} from '../charts/index.ts';
import { type Naming, SPEEDS, type Speed } from '../table/index.ts';
import { type Account, assess } from './account.ts';
import type { ConditionAnswer } from './condition-fit.ts';
import type { Tonight } from './correction.ts';
import { CORRECTION_STEP } from './correction-choice.ts';
import { type NextShot, nextShot, shotsToGo } from './next-shot.ts';
import type { LineSpeed, TableShot } from './shot.ts';

export interface EveningRequest {
  readonly document: ChartDocument;
  readonly naming: Naming;
  readonly shots: readonly TableShot[];
  /** Lines with a ball that did not arrive tonight. They are not asked again. */
  readonly without?: readonly LineSpeed[];
}

/** A printed number that is different on the fitted table. */
export interface MovedNumber {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly speed: Speed;
  readonly from: Decimal;
  readonly to: Decimal;
}

/** How far a pattern's numbers move on average, rounded like a correction. It is never 0. */
export interface MovedPattern {
  readonly pattern: PatternId;
  readonly by: Decimal;
}

export interface Evening {
  readonly tonight: Tonight;
  /** How many more shots are needed; see `shotsToGo`. */
  readonly toGo: number | null;
  readonly next: NextShot | null;
  readonly condition: ConditionAnswer;
  readonly account: Account;
  /**
   * Printed numbers that the fitted condition would move; empty if that condition does not explain
   * the shots.
   */
  readonly moved: readonly MovedNumber[];
  /** How far the fitted condition moves each pattern, largest first. */
  readonly patterns: readonly MovedPattern[];
}

export function eveningOf({ document, naming, shots, without = [] }: EveningRequest): Evening {
  const chart = computeChart(document, naming);
  const { tonight, condition, account } = assess(chart, shots);
  const other =
    condition.ok && (account === 'table' || account === 'both') ? onTable(chart, condition) : null;
  const on = condition.ok
    ? { ...chart.setting, condition: condition.fit.condition }
    : chart.setting;
  const moved = other ? movedNumbers(chart, other) : [];
  return {
    tonight,
    toGo: shotsToGo(tonight),
    next: nextShot(chart, shots, { without, on }),
    condition,
    // If no printed number moves, the player sees no difference between the table and the chart's.
    account: other && moved.length === 0 ? 'chart' : account,
    moved,
    patterns: other ? movedPatterns(chart, other) : [],
  };
}

/** Returns the chart as it would be on the fitted table. */
function onTable(chart: Chart, { fit }: Extract<ConditionAnswer, { readonly ok: true }>): Chart {
  return chartWith(chart.document, stateOn(chart, fit.condition), chart.naming);
}

/** Returns the lines that both charts have, in pairs. */
function pairs(from: Chart, to: Chart): readonly (readonly [Line, Line])[] {
  const after = new Map(to.lines.map((line) => [placeKey(line), line]));
  return from.lines.flatMap((line) => {
    const other = after.get(placeKey(line));
    return other ? [[line, other] as const] : [];
  });
}

/** Returns how far patterns move, by the mean over a pattern's lines and speeds. */
export function movedPatterns(from: Chart, to: Chart): readonly MovedPattern[] {
  const both = pairs(from, to);
  const moved = from.patterns.flatMap((pattern): readonly MovedPattern[] => {
    const moves = both
      .filter(([line]) => line.pattern === pattern)
      .flatMap(([line, other]) =>
        SPEEDS.map((speed) => other.numbers[speed].exact - line.numbers[speed].exact),
      );
    if (moves.length === 0) return [];
    const by = roundTo(moves.reduce((sum, move) => sum + move, 0) / moves.length, CORRECTION_STEP);
    return by === 0 ? [] : [{ pattern, by }];
  });
  return [...moved].sort((a, b) => size(b.by) - size(a.by));
}

/** Returns the numbers that both charts have but print differently. */
function movedNumbers(from: Chart, to: Chart): readonly MovedNumber[] {
  return pairs(from, to).flatMap(([line, other]) => {
    const { pattern, start } = line;
    return SPEEDS.flatMap((speed): readonly MovedNumber[] => {
      const [before, after] = [line.numbers[speed].printed, other.numbers[speed].printed];
      return before === after ? [] : [{ pattern, start, speed, from: before, to: after }];
    });
  });
}
