/**
 * Makes a snapshot. The app loads this code when it is idle. The first screen only reads snapshots.
 */

import type { LogEvent } from './events.ts';
import { copyOf } from './fold.ts';
import { foldBy } from './log.ts';
import { type LogState, SNAPSHOT_VERSION, type Snapshot } from './state.ts';
import { survey } from './survey.ts';

/** The least number of events that are worth sealing. */
export const SEAL_AT = 2000;

/** The events that may be sealed now, and the snapshot that includes them. */
export interface Sealable {
  readonly snapshot: Snapshot;
  /** The events to seal, in no particular order. */
  readonly sealed: readonly LogEvent[];
}

/**
 * Returns the events up to the day before yesterday, because taking back an answer or traveling no
 * longer changes events that old. Null if they are too few. An event with a wrong clock is left out,
 * and so are all events after it, because later events may change its date again.
 */
export function sealable(log: LogState, today: number, fewest = SEAL_AT): Sealable | null {
  const { rawEvents } = log;
  const before = Math.min(today - 1, firstWrong(log));
  const sealed = rawEvents.filter((event) => event.day < before);
  if (sealed.length < fewest) return null;
  const ids = new Set(sealed.map(({ id }) => id));
  const takenBackLater = rawEvents.some(
    (event) => event.type === 'taken back' && !ids.has(event.id) && ids.has(event.answered),
  );
  // An answer and the event that takes it back must be sealed together, a few days later.
  if (takenBackLater) return null;
  return { snapshot: snapshotOf(log, sealed, before), sealed };
}

/** Returns the earliest day, wrong or corrected, of any event with a wrong clock. */
function firstWrong({ events, rawEvents }: LogState): number {
  const corrected = new Map(events.map((event) => [event.id, event.day]));
  const wrong = rawEvents.filter((event) => corrected.get(event.id) !== event.day);
  const days = wrong.flatMap((event) => [event.day, corrected.get(event.id) ?? event.day]);
  return days.reduce((first, day) => Math.min(first, day), Number.POSITIVE_INFINITY);
}

function snapshotOf(log: LogState, sealed: readonly LogEvent[], before: number): Snapshot {
  const { base, model } = log;
  const own = foldBy(sealed, base, model);
  return {
    version: SNAPSHOT_VERSION,
    events: (base?.events ?? 0) + sealed.length,
    before,
    weights: model.weights,
    ownWeights: survey(sealed, base).weights,
    devices: own.devices,
    takenBack: own.takenBack,
    shownAgain: own.events.filter(isShownAgain),
    fold: copyOf(own),
  };
}

function isShownAgain({ type }: LogEvent): boolean {
  return type === 'drilled' || type === 'rehearsed' || type === 'proved';
}
