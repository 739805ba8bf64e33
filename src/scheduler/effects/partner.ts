/** Finds the chart with which a chart shares its memory. */

import type { ChartDocument } from '../../charts/index.ts';
import type { LogState } from '../log/state.ts';

/**
 * Returns the chart with the memory that this chart uses; null if this chart has its own. A chart that
 * itself uses another chart's memory cannot be a partner. Two devices may each have made one of two
 * charts use the other's memory, and then neither chart would have its own ids.
 */
export function partnerOf(
  { id }: ChartDocument,
  charts: readonly ChartDocument[],
  { uses }: Pick<LogState, 'uses'>,
): ChartDocument | null {
  const shares = uses.get(id)?.shares ?? null;
  if (shares === null || shares === id || (uses.get(shares)?.shares ?? null) !== null) return null;
  return charts.find((one) => one.id === shares) ?? null;
}
