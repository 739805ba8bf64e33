/** Everything that an evening's test shots tell of a table, worked out in one go for a worker. */

import { type Naming, SPEEDS, type Speed } from '../table/index.ts';
import { type Chart, computeChart, type Line } from './chart.ts';
import { type ConditionAnswer, conditionOf } from './condition-fit.ts';
import { correctionOf, type Tonight } from './correction.ts';
import type { Decimal } from './decimal.ts';
import type { ChartDocument } from './document.ts';
import { type NextShot, nextShot, shotsToGo } from './next-shot.ts';
import type { PatternId } from './patterns.ts';
import type { TableShot } from './shot-arrival.ts';

export interface EveningRequest {
  readonly document: ChartDocument;
  readonly naming: Naming;
  readonly shots: readonly TableShot[];
}

/** A printed number that is another on the fitted table. */
export interface MovedNumber {
  readonly pattern: PatternId;
  readonly start: Decimal;
  readonly speed: Speed;
  readonly from: Decimal;
  readonly to: Decimal;
}

export interface Evening {
  readonly tonight: Tonight;
  /** See `shotsToGo`. */
  readonly toGo: number | null;
  readonly next: NextShot | null;
  readonly condition: ConditionAnswer;
  /** Printed numbers that the fitted condition would move; none if it is not another. */
  readonly moved: readonly MovedNumber[];
}

export function eveningOf({ document, naming, shots }: EveningRequest): Evening {
  const chart = computeChart(document, naming);
  const tonight = correctionOf(chart, shots);
  const condition = conditionOf(chart, shots);
  return {
    tonight,
    toGo: shotsToGo(tonight),
    next: nextShot(chart, shots),
    condition,
    moved:
      condition.ok && condition.fit.differs
        ? movedNumbers(chart, onCondition(document, naming, condition))
        : [],
  };
}

/** The chart as it would be on the fitted table. */
function onCondition(
  document: ChartDocument,
  naming: Naming,
  { fit }: Extract<ConditionAnswer, { readonly ok: true }>,
): Chart {
  const last = document.revisions[document.revisions.length - 1] ?? document.revisions[0];
  const revised = { ...last, condition: fit.condition };
  return computeChart({ ...document, revisions: [revised] }, naming);
}

/** Numbers of lines that both charts have, and that are printed otherwise. */
export function movedNumbers(from: Chart, to: Chart): readonly MovedNumber[] {
  const key = ({ pattern, start }: Line) => `${pattern} ${start}`;
  const after = new Map(to.lines.map((line) => [key(line), line]));
  return from.lines.flatMap((line) => {
    const other = after.get(key(line));
    if (!other) return [];
    const { pattern, start } = line;
    return SPEEDS.flatMap((speed): readonly MovedNumber[] => {
      const [was, is] = [line.numbers[speed].printed, other.numbers[speed].printed];
      return was === is ? [] : [{ pattern, start, speed, from: was, to: is }];
    });
  });
}
