import type { Chart, Decimal, Line } from '../charts/index.ts';
import type { Speed } from '../table/index.ts';

/** Everything that questions are made from. */
export interface Asker {
  readonly chart: Chart;
  /** The tolerance now in use, in diamonds (`toleranceFor`). */
  readonly tolerance: Decimal;
  /** The speeds at which skills may be asked. */
  readonly speeds: readonly Speed[];
  /**
   * Returns whether a skill may build on this line. Without this function, skills build on all
   * lines of the chart.
   */
  readonly met?: (line: Line) => boolean;
}
