import type { LogState } from '../../src/scheduler/index.ts';

interface Plain extends Omit<LogState, 'touched' | 'base' | 'rawEvents' | 'model'> {
  readonly weights: readonly number[];
}

/** What a log's state says, without how it was reached: to compare states by. */
export function plain(log: LogState): Plain {
  const { touched: _, base: __, rawEvents: ___, model, ...state } = log;
  return { ...state, weights: model.weights };
}
