/**
 * What came of the older part of a log, so that opening the app need not fold a million answers. A
 * cache: it is made of the events and may be thrown away at any time.
 */

import type { LogEvent } from './events.ts';
import type { CardMemory } from './fold.ts';
import { foldBy, type LogState } from './log.ts';
import { DEFAULT_WEIGHTS } from './memory.ts';
import { survey } from './survey.ts';

/** Counts up whenever a fold would come to something else, or keeps something else. */
const SNAPSHOT_VERSION = 1;

/** So many events are worth sealing. */
export const SEAL_AT = 2000;

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

/** What may be sealed now, and what came of it and of all before. */
export interface Sealable {
  readonly snapshot: Snapshot;
  /** In no order. */
  readonly sealed: readonly LogEvent[];
}

/**
 * Events up to the day before yesterday, which no answer taken back and no traveller's clock reaches
 * any more. Null if they are few. An event whose clock was wrong, and what came after it, stays out:
 * what is found out later may date it otherwise.
 */
export function sealable(log: LogState, today: number, fewest = SEAL_AT): Sealable | null {
  const before = Math.min(today - 1, firstWrong(log));
  const sealed = log.told.filter((event) => event.day < before);
  if (sealed.length < fewest) return null;
  const ids = new Set(sealed.map(({ id }) => id));
  const late = log.told.some(
    (event) => event.type === 'taken back' && !ids.has(event.id) && ids.has(event.answered),
  );
  // The answer and its taking back have to be folded at one time: by and by they will be.
  if (late) return null;
  return { snapshot: snapshotOf(log, sealed, before), sealed };
}

function firstWrong(log: LogState): number {
  const dated = new Map(log.events.map((event) => [event.id, event.day]));
  const wrong = log.told.filter((event) => dated.get(event.id) !== event.day);
  const days = wrong.flatMap((event) => [event.day, dated.get(event.id) ?? event.day]);
  return Math.min(Number.POSITIVE_INFINITY, ...days);
}

function snapshotOf(log: LogState, sealed: readonly LogEvent[], before: number): Snapshot {
  const { onto, model } = log;
  const own = foldBy(sealed, onto, model);
  return {
    version: SNAPSHOT_VERSION,
    events: (onto?.events ?? 0) + sealed.length,
    before,
    weights: model.weights,
    ownWeights: survey(own.told, onto).weights,
    devices: own.devices,
    takenBack: own.takenBack,
    shownAgain: own.events.filter(isShownAgain),
    fold: plainFold(own),
  };
}

function isShownAgain({ type }: LogEvent): boolean {
  return type === 'drilled' || type === 'rehearsed' || type === 'proved';
}

function plainFold(log: Folded): Folded {
  return {
    memories: mapped(log.memories, plain),
    met: new Map(log.met),
    times: mapped(log.times, (list) => [...list]),
    aside: new Set(log.aside),
    notes: new Map(log.notes),
    flags: new Map(log.flags),
    moved: mapped(log.moved, (one) => ({ ...one, memory: one.memory && plain(one.memory) })),
    shifts: new Map(log.shifts),
    numbers: new Map(log.numbers),
    uses: new Map(log.uses),
    shots: [...log.shots],
    steps: log.steps,
  };
}

/** Without the answers themselves, of which a memory keeps what it was told. */
function plain(memory: CardMemory): CardMemory {
  const { told, recent } = memory;
  return {
    ...memory,
    told: told && { answer: told.answer, errors: told.errors },
    recent: recent.map(({ day, errors }) => ({ day, errors })),
  };
}

function mapped<V, W>(map: ReadonlyMap<string, V>, change: (value: V) => W): Map<never, W> {
  return new Map([...map].map(([key, value]) => [key, change(value)])) as Map<never, W>;
}

/**
 * May these events be folded on top of a snapshot: do they all come after what is in it, and take
 * nothing of it back. If not, or if it is of another version or no snapshot at all, all is folded.
 */
export function canContinue(stored: unknown, tail: readonly LogEvent[]): stored is Snapshot {
  if (!isSnapshot(stored)) return false;
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

function isSnapshot(stored: unknown): stored is Snapshot {
  const { version, fold, devices, takenBack, shownAgain } = (stored ?? {}) as Partial<Snapshot>;
  return (
    version === SNAPSHOT_VERSION &&
    devices instanceof Map &&
    takenBack instanceof Set &&
    Array.isArray(shownAgain) &&
    fold?.memories instanceof Map
  );
}
