import type { Chart, Decimal, Line } from '../charts/index.ts';
import type { Speed } from '../table/index.ts';

/** What questions are made from. */
export interface Asker {
  readonly chart: Chart;
  /** The tolerance in force, diamonds (`toleranceFor`). */
  readonly tolerance: Decimal;
  /** The speeds at which skills may be asked. */
  readonly speeds: readonly Speed[];
  /** May a skill build on this line. Without it, skills build on all lines of the chart. */
  readonly met?: (line: Line) => boolean;
}
