/** The log, folded: what is remembered of each card, and what the queue needs to know. Pure. */

import type { Kind } from '../cards/index.ts';
import {
  type Answered,
  compareEvents,
  type LogEvent,
  type Met,
  mergeLogs,
  type TableShot,
} from './events.ts';
import {
  type CardMemory,
  type ChartUse,
  type Flag,
  type Fold,
  type MetLine,
  type MovedCard,
  type Shift,
  takeIn,
} from './fold.ts';

export type { CardMemory, ChartUse, Flag, MetLine, MovedCard, Shift };

export interface LogState {
  /** In order; taken-back answers are still among them. */
  readonly events: readonly LogEvent[];
  readonly memories: ReadonlyMap<string, CardMemory>;
  readonly met: ReadonlyMap<string, MetLine>;
  /** A step is one thing the player was shown: an answered card or a met line. */
  readonly steps: number;
  /** Recent answer times per kind, milliseconds, newest last. */
  readonly times: ReadonlyMap<Kind, readonly number[]>;
  /** Lines set aside, by their ids. */
  readonly aside: ReadonlySet<string>;
  /** The player's notes, by line. */
  readonly notes: ReadonlyMap<string, string>;
  /** Numbers that the player doubts, by line. */
  readonly flags: ReadonlyMap<string, Flag>;
  /** Cards whose number moved beyond the tolerance and that were not answered since. */
  readonly moved: ReadonlyMap<string, MovedCard>;
  /** Cards that remember another number than their chart has, until they are answered. */
  readonly shifts: ReadonlyMap<string, Shift>;
  /** What the last revision that touched a card made its numbers; null if it left its chart. */
  readonly numbers: ReadonlyMap<string, readonly number[] | null>;
  /** How the player uses charts, by their ids. */
  readonly uses: ReadonlyMap<string, ChartUse>;
  /** Shots at the real table that still count. */
  readonly shots: readonly TableShot[];
  /** Ids that were taken back. Of these, answers and shots no longer count; nothing else can be. */
  readonly takenBack: ReadonlySet<string>;
}

/** Folds a log given in any order; the result depends on the set of events alone. */
export function foldLog(events: readonly LogEvent[]): LogState {
  const ordered = [...events].sort(compareEvents);
  const takenBack = new Set<string>();
  for (const event of ordered) if (event.type === 'taken back') takenBack.add(event.answered);
  const fold: Fold = {
    memories: new Map(),
    met: new Map(),
    times: new Map(),
    aside: new Set(),
    notes: new Map(),
    flags: new Map(),
    moved: new Map(),
    shifts: new Map(),
    numbers: new Map(),
    uses: new Map(),
    shots: [],
    steps: 0,
  };
  for (const event of ordered) if (counts(event, takenBack)) takeIn(fold, event);
  return { events: ordered, ...fold, takenBack };
}

/**
 * The log with one more event; the same state as folding all of them again. An event that comes
 * last, as nearly all do, costs no more than the number of cards, unless it takes one back.
 */
export function addToLog(log: LogState, event: LogEvent): LogState {
  const last = log.events[log.events.length - 1];
  const comesLast = !last || compareEvents(last, event) < 0;
  if (!comesLast || event.type === 'taken back') return foldLog(mergeLogs(log.events, [event]));
  const fold: Fold = {
    memories: new Map(log.memories),
    met: new Map(log.met),
    times: new Map([...log.times].map(([kind, list]) => [kind, [...list]])),
    aside: new Set(log.aside),
    notes: new Map(log.notes),
    flags: new Map(log.flags),
    moved: new Map(log.moved),
    shifts: new Map(log.shifts),
    numbers: new Map(log.numbers),
    uses: new Map(log.uses),
    shots: [...log.shots],
    steps: log.steps,
  };
  // Taken back before it got here, by a tab that is ahead.
  if (counts(event, log.takenBack)) takeIn(fold, event);
  return { events: [...log.events, event], ...fold, takenBack: log.takenBack };
}

function counts(event: LogEvent, takenBack: ReadonlySet<string>): boolean {
  const canBe = event.type === 'answered' || event.type === 'table shot';
  return !canBe || !takenBack.has(event.id);
}

/**
 * The newest event up to a day that still counts and fits. Events dated later than today come from
 * a clock that was ahead: they count for memory, but they are not what was shown last.
 */
export function lastEvent<E extends LogEvent>(
  log: LogState,
  today: number,
  fits: (event: LogEvent) => event is E,
): E | null {
  for (let n = log.events.length - 1; n >= 0; n--) {
    const event = log.events[n];
    if (event && event.day <= today && fits(event) && counts(event, log.takenBack)) return event;
  }
  return null;
}

export function isAnswer(event: LogEvent): event is Answered {
  return event.type === 'answered';
}

/** An event that showed the player something: an answered card or a met line. */
export function isStep(event: LogEvent): event is Answered | Met {
  return event.type === 'answered' || event.type === 'met';
}
