import type { Planner } from '../../../src/workers/index.ts';

/** For a player without a day to plan for. */
export const noPlanner: Planner = {
  ask: () => {
    throw new Error('a plan was asked for');
  },
};
