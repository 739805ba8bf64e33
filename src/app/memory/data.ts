/** What the Memory page shows, and where it has it from. */

import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { LogState, PlanReply } from '../../scheduler/index.ts';
import type { History } from '../../workers/index.ts';

export interface MemoryData {
  readonly log: LogState;
  readonly cards: readonly Card[];
  readonly chart: Chart;
  readonly today: number;
  /** Null while it is worked out, if it cannot be, and if no day is set. */
  readonly plan: PlanReply | null;
  /** Null while it is worked out. */
  readonly history: History | null;
}
