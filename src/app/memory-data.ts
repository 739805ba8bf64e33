/** What the Memory page shows, and where it has it from. */

import type { Card } from '../cards/index.ts';
import type { Chart } from '../charts/index.ts';
import type { CalibrationBin } from '../figure/index.ts';
import type { Held, HeldDay, LoadDay, LogState } from '../scheduler/index.ts';

/** What a plan for the day that counts says. */
export interface PlanShown {
  /** Lines held on the day, if the plan is followed. */
  readonly forecast: Held;
  /** From today to the day. */
  readonly curve: readonly HeldDay[];
  readonly load: readonly LoadDay[];
  /** Is it nine lines of ten. */
  readonly enough: boolean;
  /** Answers a day for nine lines of ten; null if none will do. */
  readonly answersNeeded: number | null;
  /** Ids of the number cards of lines that it gives up, least worth first. */
  readonly drop: readonly string[];
}

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
  /** Null while it is worked out, and if no day is set. */
  readonly plan: PlanShown | null;
  /** Null while it is worked out. */
  readonly history: History | null;
}
