/**
 * Making a snapshot. It waits until the page is idle, so it is apart from what a snapshot is gone on
 * from by, which the first screen needs.
 */

import type { LogEvent } from './events.ts';
import type { CardMemory } from './fold.ts';
import { foldBy, type LogState } from './log.ts';
import { type Folded, SNAPSHOT_VERSION, type Snapshot } from './snapshot.ts';
import { survey } from './survey.ts';

/** So many events are worth sealing. */
export const SEAL_AT = 2000;

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
  const told = [...log.told];
  const before = Math.min(today - 1, firstWrong(log, told));
  const sealed = told.filter((event) => event.day < before);
  if (sealed.length < fewest) return null;
  const ids = new Set(sealed.map(({ id }) => id));
  const late = told.some(
    (event) => event.type === 'taken back' && !ids.has(event.id) && ids.has(event.answered),
  );
  // The answer and its taking back have to be folded at one time: by and by they will be.
  if (late) return null;
  return { snapshot: snapshotOf(log, sealed, before), sealed };
}

function firstWrong(log: LogState, told: readonly LogEvent[]): number {
  const dated = new Map([...log.events].map((event) => [event.id, event.day]));
  const wrong = told.filter((event) => dated.get(event.id) !== event.day);
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
    ownWeights: survey(sealed, onto).weights,
    devices: own.devices,
    takenBack: own.takenBack,
    shownAgain: [...own.events].filter(isShownAgain),
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
