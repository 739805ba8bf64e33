/**
 * Decides what explains the evening's shots: the chart as it is, one correction, or a table in
 * another condition. The explanations are compared by AICc on the same shots, with the error scale
 * of the better fit. A condition counts as three parameters, although its weak prior gives it a
 * little less freedom. An explanation is clearly better if its AICc is lower by 4: a model that is
 * worse by more has "considerably less" support (Burnham & Anderson 2002, 2.6; from memory).
 */

import type { Chart } from '../charts/index.ts';
import { type ConditionAnswer, type ConditionFit, conditionOf } from './condition-fit.ts';
import { KNOBS } from './condition-knobs.ts';
import { correctionOf, readingsOf, type Tonight } from './correction.ts';
import { expectedOf } from './correction-fit.ts';
import { aicc, disagreement, type Observation } from './noise.ts';
import type { Reading } from './reading.ts';
import type { TableShot } from './shot.ts';

/**
 * What explains the shots. `table`: the condition does, and no correction does. `both`: either
 * does. `correction`: a correction does, even if it is too large to recommend, and no condition
 * does. `chart`: the shots show no difference between the table and the chart. `unknown`: there is
 * no condition to compare.
 */
export const ACCOUNTS = ['unknown', 'chart', 'correction', 'both', 'table'] as const;
export type Account = (typeof ACCOUNTS)[number];

export interface Assessment {
  readonly tonight: Tonight;
  readonly condition: ConditionAnswer;
  readonly account: Account;
}

const CLEARLY = 4;

export function assess(chart: Chart, shots: readonly TableShot[]): Assessment {
  const tonight = correctionOf(chart, shots);
  const condition = conditionOf(chart, shots);
  const account = condition.ok
    ? accountOf(readingsOf(chart, shots).readings, tonight, condition.fit)
    : 'unknown';
  return { tonight, condition, account };
}

/**
 * Returns what explains the shots.
 * @param readings the readings of the fit's shots, in the same order
 */
function accountOf(readings: readonly Reading[], tonight: Tonight, fit: ConditionFit): Account {
  const corrects = tonight.why === null || tonight.why === 'too large';
  const { asIs, corrected, onTable } = scoresOf(readings, tonight, fit);
  const withCorrection = corrects ? corrected : Number.POSITIVE_INFINITY;
  const isTable = fit.differs && onTable <= asIs - CLEARLY && withCorrection > onTable - CLEARLY;
  if (!isTable) return corrects ? 'correction' : 'chart';
  if (onTable <= withCorrection - CLEARLY) return 'table';
  return tonight.why === null ? 'both' : 'table';
}

/**
 * Returns the AICc of the chart as it is, of the chart with the correction, and of the fitted
 * table.
 */
function scoresOf(readings: readonly Reading[], { amounts, scale }: Tonight, fit: ConditionFit) {
  const least = Math.min(scale, fit.scale);
  const seen = readings.map((reading) => reading.seen);
  const score = (shots: readonly Observation[], expected: readonly number[], k: number) =>
    aicc(sumOf(shots, expected, least), k, shots.length);
  const corrected = readings.map((reading) => expectedOf(reading, amounts));
  const errors = fit.shots.map(({ error }) => error);
  const centered = seen.map((one) => ({ ...one, middle: 0 }));
  return {
    asIs: score(seen, [], 0),
    corrected: score(seen, corrected, amounts.length),
    onTable: score(centered, errors, KNOBS.length),
  };
}

function sumOf(seen: readonly Observation[], expected: readonly number[], scale: number): number {
  return seen.reduce((sum, one, n) => sum + disagreement(one, expected[n] ?? 0, scale), 0);
}
