import type { LogState } from '../../src/scheduler/index.ts';

interface Plain extends Omit<LogState, 'base' | 'rawEvents' | 'model'> {
  readonly weights: readonly number[];
}

/** What a log's state says, without how it was reached: to compare states by. */
export function plain(log: LogState): Plain {
  const { base: _, rawEvents: __, model, ...state } = log;
  return { ...state, weights: model.weights };
}
