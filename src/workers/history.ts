/** A summary of the whole log (history-worker.ts). */

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
  /** Forecast against outcome. */
  readonly calibration: Calibration;
  /** Answers a week, by the week's first study-day; the last week is the present one. */
  readonly weeks: readonly LoadDay[];
}

export interface HistoryRequest {
  /** Name of the store whose log is read. */
  readonly store: string;
  /** Study-day. */
  readonly today: number;
}

export type Historian = LatestOnly<Pick<HistoryRequest, 'today'>, History>;

/** @param store name of the store whose log is read */
export function createHistorian(start: () => Port, store: string): Historian {
  const { ask } = latestOnly<HistoryRequest, History>(start);
  return { ask: ({ today }, done) => ask({ store, today }, done) };
}

/** @param events all of them, in any order */
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
