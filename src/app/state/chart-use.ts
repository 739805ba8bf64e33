import type { ChartUse, LogState } from '../../scheduler/index.ts';

const AS_IT_IS: ChartUse = { shares: null, level: null };

/** Whose memory a chart uses, as the log has it. */
export function chartUseOf({ uses }: LogState, id: string): ChartUse {
  return uses.get(id) ?? AS_IT_IS;
}
