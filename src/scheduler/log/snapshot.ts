/**
 * The stored fold of the older events, so that opening the app folds the recent ones alone. It is a
 * cache: made of the events, it may be thrown away at any time.
 */

import { DEFAULT_WEIGHTS } from '../memory/memory.ts';
import type { LogEvent } from './events.ts';
import { isSnapshot } from './snapshot-schema.ts';
import type { Snapshot } from './state.ts';
import { survey } from './survey.ts';

/**
 * A stored snapshot on top of which these events can be folded; if not, everything is folded again.
 */
export function canContinue(stored: unknown, events: readonly LogEvent[]): stored is Snapshot {
  return isSnapshot(stored) && continues(stored, events);
}

/** Do all of these events come after those of a snapshot, and leave what it folded as it is. */
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

/** Is the event folded in, judged by its device's latest number. */
function isIn({ devices }: Snapshot, id: string): boolean {
  const [device = '', seq] = id.split(':');
  return Number(seq) <= (devices.get(device) ?? -1);
}
