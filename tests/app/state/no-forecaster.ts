import type { Planner } from '../../../src/workers/index.ts';

/** For a player without a match day. */
export const noForecaster: Planner = {
  ask: () => {
    throw new Error('a plan was asked for');
  },
};
