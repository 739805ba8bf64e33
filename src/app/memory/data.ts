/** The data that the sheets of the Memory page read. */

import type { Card } from '../../cards/index.ts';
import type { Chart } from '../../charts/index.ts';
import type { Forecast, LogState } from '../../scheduler/index.ts';
import type { History } from '../../workers/index.ts';

export interface MemoryData {
  readonly log: LogState;
  readonly cards: readonly Card[];
  readonly chart: Chart;
  readonly today: number;
  /** For the day of the occasion, or a month ahead; null while it is computed or if it cannot be. */
  readonly forecast: Forecast | null;
  /** Null while it is computed. */
  readonly history: History | null;
}
