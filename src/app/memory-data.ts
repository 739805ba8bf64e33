/** What the Memory page shows, and where it has it from. */

import type { Card } from '../cards/index.ts';
import type { Chart } from '../charts/index.ts';
import type { CalibrationBin } from '../figure/index.ts';
import type { LoadDay, LogState, PlanReply } from '../scheduler/index.ts';

/** How forecasts came out: parts of one; null where there was no answer. */
export interface CalibrationShown {
  readonly bins: readonly CalibrationBin[];
  readonly said: number | null;
  readonly was: number | null;
  readonly answers: number;
}

/** What came of all answers so far. */
export interface History {
  readonly calibration: CalibrationShown;
  /** Week by week, by its first study-day; the last is this one. */
  readonly weeks: readonly LoadDay[];
}

export interface MemoryData {
  readonly log: LogState;
  readonly cards: readonly Card[];
  readonly chart: Chart;
  readonly today: number;
  /** Null while it is worked out, if it cannot be, and if no day is set. */
  readonly plan: PlanReply | null;
  /** Null while it is worked out. */
  readonly history: History | null;
}
