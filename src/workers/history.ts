/** What came of all answers so far. */

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
import { type Ask, type Asked, askNewest, type Port, type Reply } from './newest.ts';

export interface History {
  /** How forecasts came out. */
  readonly calibration: Calibration;
  /** Answers week by week, by its first study-day; the last is this one. */
  readonly weeks: readonly LoadDay[];
}

/** What the worker is sent: the name of the store whose log is read, and the study-day. */
export interface HistoryWish {
  readonly store: string;
  readonly today: number;
}

export type HistoryRequest = Asked<HistoryWish>;
export type HistoryReply = Reply<{ readonly history: History }>;
export type HistoryPort = Port<HistoryWish, { readonly history: History }>;

export interface Historian {
  /** Calls back once, unless a newer request takes this one's place before it is begun. */
  readonly ask: Ask<Pick<HistoryWish, 'today'>, { readonly history: History }>;
}

/** @param store name of the store whose log is read */
export function createHistorian(port: HistoryPort, store: string): Historian {
  const ask = askNewest(port);
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
