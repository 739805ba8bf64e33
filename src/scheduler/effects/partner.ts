/** Whose memory a chart's lines use. */

import type { ChartDocument } from '../../charts/index.ts';
import type { LogState } from '../log/state.ts';

/**
 * The chart whose memory this one shares; null if it has its own. A chart that itself shares is no
 * partner: two devices may each have made one chart share the other, and then neither would have
 * ids of its own.
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
