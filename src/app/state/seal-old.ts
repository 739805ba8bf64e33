/** Seals old events into a snapshot. This code loads when the page is idle. */

import { type LogState, sealable } from '../../scheduler/index.ts';
import type { Store } from '../../store/index.ts';

/** Seals the old events of the log. Changes nothing if another tab was first. */
export async function sealOld(store: Store, log: LogState, today: number): Promise<void> {
  const cut = sealable(log, today);
  if (cut) await store.seal(cut.snapshot, cut.sealed, log.base?.events ?? 0);
}
