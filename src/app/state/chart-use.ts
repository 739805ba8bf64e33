import type { ChartUse, LogState } from '../../scheduler/index.ts';

/** A chart that was never set up: memory of its own, all levels. */
const OWN: ChartUse = { shares: null, level: null };

/** How a chart is used, by the log. */
export function chartUseOf({ uses }: LogState, id: string): ChartUse {
  return uses.get(id) ?? OWN;
}
