import type { Chart, Decimal, Line } from '../charts/index.ts';
import type { Speed } from '../table/index.ts';

/** What a question is made from. */
export interface Asker {
  readonly chart: Chart;
  /** The tolerance in force. */
  readonly tolerance: Decimal;
  /** The speeds at which skills are asked. */
  readonly speeds: readonly Speed[];
  /** Lines that a skill may be worked out from; all of the chart's if it is left out. */
  readonly met?: (line: Line) => boolean;
}
