/**
 * What came of the older part of a log, so that opening the app need not fold a million answers. A
 * cache: it is made of the events and may be thrown away at any time.
 */

import { DEFAULT_WEIGHTS } from '../memory/memory.ts';
import type { LogEvent } from './events.ts';
import type { LogState } from './log.ts';
import { isSound } from './sound-snapshot.ts';
import { survey } from './survey.ts';

/** Counts up whenever a fold would come to something else, or keeps something else. */
export const SNAPSHOT_VERSION = 1;

/** The parts of a state that are folded, and not taken over from the events. */
export type Folded = Pick<
  LogState,
  | 'memories'
  | 'met'
  | 'times'
  | 'aside'
  | 'notes'
  | 'flags'
  | 'moved'
  | 'shifts'
  | 'numbers'
  | 'uses'
  | 'shots'
  | 'steps'
>;

/** Made of maps, sets and plain objects: it can be stored by structured clone. */
export interface Snapshot {
  readonly version: number;
  /** How many events are folded in. */
  readonly events: number;
  /** All of them are of an earlier study-day than this. */
  readonly before: number;
  /** By which weights memory was counted. */
  readonly weights: readonly number[];
  /** The weights that were taken last among the events folded in; null for the published ones. */
  readonly ownWeights: readonly number[] | null;
  /** The latest sequence number of each device. */
  readonly devices: ReadonlyMap<string, number>;
  readonly takenBack: ReadonlySet<string>;
  /** Drills, rehearsals and placements: screens show them again. */
  readonly shownAgain: readonly LogEvent[];
  readonly fold: Folded;
}

/**
 * May these events be folded on top of a snapshot: do they all come after what is in it, and take
 * nothing of it back. If not, or if it is of another version or no snapshot at all, all is folded.
 */
export function canContinue(stored: unknown, tail: readonly LogEvent[]): stored is Snapshot {
  if (!isSound(stored)) return false;
  const { before, devices, weights } = stored;
  const known = survey(tail, stored);
  if (known.wrong.size > 0) return false;
  const wanted = known.weights ?? DEFAULT_WEIGHTS;
  if (!wanted.every((one, n) => one === weights[n])) return false;
  const ids = new Set(tail.map(({ id }) => id));
  return tail.every((event) => {
    if (event.day < before || event.seq <= (devices.get(event.device) ?? -1)) return false;
    return event.type !== 'taken back' || ids.has(event.answered) || !isIn(stored, event.answered);
  });
}

/** Is an event of that id folded in, as far as its device's numbers tell. */
function isIn({ devices }: Snapshot, id: string): boolean {
  const [device = '', seq] = id.split(':');
  return Number(seq) <= (devices.get(device) ?? -1);
}
