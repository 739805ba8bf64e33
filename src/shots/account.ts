/**
 * What explains the evening's shots: the chart as it is, one correction, or a table in another
 * condition. They are judged by AICc on the same shots, with the scale of the errors that of the
 * better fit, so that −2 log likelihood is twice the disagreement (shot-noise.ts). A condition counts
 * as three parameters, though its weak guess leaves it somewhat less. Clearly better is 4 less: beyond
 * that there is "considerably less" support (Burnham & Anderson 2002, 2.6; from memory).
 */

import type { Chart } from '../charts/index.ts';
import type { TableShot } from './arrival.ts';
import { type ConditionAnswer, type ConditionFit, conditionOf } from './condition-fit.ts';
import { KNOBS } from './condition-knobs.ts';
import { correctionOf, readingsOf, type Tonight } from './correction.ts';
import { expectedOf } from './correction-fit.ts';
import { disagreement, type Seen } from './noise.ts';
import type { Reading } from './reading.ts';

/**
 * `table`: no one correction will do, the condition does. `both`: either will. `correction`: no
 * condition explains what the correction does (said, or too large to be). `chart`: as far as the shots
 * tell, the table is the chart's. `untold`: there is no condition to judge.
 */
export const ACCOUNTS = ['untold', 'chart', 'correction', 'both', 'table'] as const;
export type Account = (typeof ACCOUNTS)[number];

export interface Judged {
  readonly tonight: Tonight;
  readonly condition: ConditionAnswer;
  readonly account: Account;
}

const CLEARLY = 4;

export function judged(chart: Chart, shots: readonly TableShot[]): Judged {
  const tonight = correctionOf(chart, shots);
  const condition = conditionOf(chart, shots);
  const account = condition.ok
    ? accountOf(readingsOf(chart, shots).readings, tonight, condition.fit)
    : 'untold';
  return { tonight, condition, account };
}

/** @param readings those of the fit's shots, in their order */
function accountOf(readings: readonly Reading[], tonight: Tonight, fit: ConditionFit): Account {
  const scale = Math.min(tonight.scale, fit.scale);
  const seen = readings.map((reading) => reading.seen);
  const score = (shots: readonly Seen[], expected: readonly number[], k: number) =>
    aicc(sumOf(shots, expected, scale), k, shots.length);
  const asIs = score(seen, [], 0);
  const corrects = tonight.why === null || tonight.why === 'too large';
  const corrected = corrects
    ? score(
        seen,
        readings.map((reading) => expectedOf(reading, tonight.amounts)),
        tonight.amounts.length,
      )
    : Number.POSITIVE_INFINITY;
  const onTable = score(
    seen.map((one) => ({ ...one, middle: 0 })),
    fit.shots.map(({ error }) => error),
    KNOBS.length,
  );
  const without = corrects ? 'correction' : 'chart';
  if (!fit.differs || onTable > asIs - CLEARLY || corrected <= onTable - CLEARLY) return without;
  if (onTable <= corrected - CLEARLY) return 'table';
  return tonight.why === null ? 'both' : 'table';
}

function sumOf(seen: readonly Seen[], expected: readonly number[], scale: number): number {
  return seen.reduce((sum, one, n) => sum + disagreement(one, expected[n] ?? 0, scale), 0);
}

function aicc(far: number, k: number, n: number): number {
  return 2 * far + 2 * k + (2 * k * (k + 1)) / (n - k - 1);
}
