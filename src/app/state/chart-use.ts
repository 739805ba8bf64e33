import type { ChartUse, LogState } from '../../scheduler/index.ts';

/** The use of a chart that was never set up: it has its own memory, and all levels are asked. */
const OWN: ChartUse = { shares: null, level: null };

/** Returns how the player uses a chart, by the log. */
export function chartUseOf({ uses }: LogState, id: string): ChartUse {
  return uses.get(id) ?? OWN;
}
