import type { Planner } from '../../../src/workers/index.ts';

/** For a player without a day to plan for. */
export function noPlanner(): Planner {
  throw new Error('a plan was asked for');
}
