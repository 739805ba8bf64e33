/** Whose memory a chart's lines use. */

import type { ChartDocument } from '../../charts/index.ts';
import type { LogState } from '../log/state.ts';

/**
 * The chart whose memory another shares; null if it has its own. One that shares in turn is none: two
 * devices may have said so of each other's, and then every id would be the other's.
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
