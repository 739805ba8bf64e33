/**
 * Checks the stored snapshot: the state folded from the older events. With it, the app folds only the
 * recent events when it opens. It is a cache that is computed from events, so it may be discarded at
 * any time.
 */

import { DEFAULT_WEIGHTS } from '../memory/memory.ts';
import type { LogEvent } from './events.ts';
import { isSnapshot } from './snapshot-schema.ts';
import type { Snapshot } from './state.ts';
import { survey } from './survey.ts';

/**
 * Returns whether these events can be folded on top of a stored snapshot. If they cannot, all events
 * are folded again.
 */
export function canContinue(stored: unknown, events: readonly LogEvent[]): stored is Snapshot {
  return isSnapshot(stored) && continues(stored, events);
}

/** Returns whether all these events come after those in a snapshot and do not change its contents. */
export function continues(base: Snapshot, events: readonly LogEvent[]): boolean {
  const { before, devices, weights } = base;
  const known = survey(events, base);
  if (known.wrongClocks.size > 0) return false;
  const wanted = known.weights ?? DEFAULT_WEIGHTS;
  if (!wanted.every((one, n) => one === weights[n])) return false;
  const ids = new Set(events.map(({ id }) => id));
  return events.every((event) => {
    if (event.day < before || event.seq <= (devices.get(event.device) ?? -1)) return false;
    return event.type !== 'taken back' || ids.has(event.answered) || !isIn(base, event.answered);
  });
}

/** Returns whether the snapshot includes an event, judging by the latest number of its device. */
function isIn({ devices }: Snapshot, id: string): boolean {
  const [device = '', seq] = id.split(':');
  return Number(seq) <= (devices.get(device) ?? -1);
}
