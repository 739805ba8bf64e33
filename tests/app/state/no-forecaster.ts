import type { Forecaster } from '../../../src/workers/index.ts';

/** For tests in which nothing asks for a forecast. */
export const noForecaster: Forecaster = {
  ask: () => {
    throw new Error('a forecast was asked for');
  },
};
