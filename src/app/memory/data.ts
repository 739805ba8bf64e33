/** The data that the sheets of the Memory page read. */

import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { LogState, PlanReply } from '../../scheduler/index.ts';
import type { History } from '../../workers/index.ts';

export interface MemoryData {
  readonly log: LogState;
  readonly cards: readonly Card[];
  readonly chart: Chart;
  readonly today: number;
  /**
   * The plan for the occasion. Null while it is computed, if it cannot be computed, and without an
   * occasion.
   */
  readonly plan: PlanReply | null;
  /** The history of the log; null until it is computed. */
  readonly history: History | null;
}
