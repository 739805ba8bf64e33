/** Summarizes the whole log. history-worker.ts runs this. */

import {
  addStep,
  byWeek,
  type Calibration,
  eachStep,
  foldLog,
  type LoadDay,
  type LogEvent,
  sumCalibration,
} from '../scheduler/index.ts';
import type { Port } from './client.ts';
import { type LatestOnly, latestOnly } from './latest-only.ts';

export interface History {
  /** How the forecast recall compares with the actual answers. */
  readonly calibration: Calibration;
  /** The number of answers in each week. `day` is its first study day. The last week is this week. */
  readonly weeks: readonly LoadDay[];
}

export interface HistoryRequest {
  /** The name of the store from which the log is read. */
  readonly store: string;
  /** The current study day. */
  readonly today: number;
}

export type Historian = LatestOnly<Pick<HistoryRequest, 'today'>, History>;

/** @param store the name of the store from which the log is read */
export function createHistorian(start: () => Port, store: string): Historian {
  const { ask } = latestOnly<HistoryRequest, History>(start);
  return { ask: ({ today }, done) => ask({ store, today }, done) };
}

/** @param events all events, in any order */
export function historyOf(events: readonly LogEvent[], today: number): History {
  const { model } = foldLog(events);
  const sum = sumCalibration();
  const days: number[] = [];
  eachStep(events, (step) => {
    addStep(sum, step, model);
    days.push(step.day);
  });
  return { calibration: sum.total(), weeks: byWeek(days, today) };
}
