/** The log, folded: what is remembered of each card, and what the queue needs to know. Pure. */

import type { Kind } from '../cards/index.ts';
import { type Answered, compareEvents, type LogEvent, type Met, mergeLogs } from './events.ts';
import { type Memory, remember } from './memory.ts';

export interface CardMemory extends Memory {
  readonly firstDay: number;
  readonly lastDay: number;
  readonly lastOutcome: Answered['outcome'];
  readonly answers: number;
  /** How often it was off on its last day, without having been right in between. */
  readonly missesInARow: number;
  /** Number of steps of the log before the one that last answered it. */
  readonly lastStep: number;
}

export interface MetLine {
  readonly day: number;
  /** Number of steps of the log before the one that met it. */
  readonly step: number;
}

export interface LogState {
  /** In order; taken-back answers are still among them. */
  readonly events: readonly LogEvent[];
  readonly memories: ReadonlyMap<string, CardMemory>;
  readonly met: ReadonlyMap<string, MetLine>;
  /** A step is one thing the player was shown: an answered card or a met line. */
  readonly steps: number;
  /** Recent answer times per kind, milliseconds, newest last. */
  readonly times: ReadonlyMap<Kind, readonly number[]>;
  /** Ids of answers that were taken back. */
  readonly takenBack: ReadonlySet<string>;
}

/** So many recent times make a player's pace. */
const RECENT = 100;

/** A fold under way. */
interface Fold {
  readonly memories: Map<string, CardMemory>;
  readonly met: Map<string, MetLine>;
  readonly times: Map<Kind, number[]>;
  readonly takenBack: ReadonlySet<string>;
  steps: number;
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
    takenBack,
    steps: 0,
  };
  for (const event of ordered) if (!takenBack.has(event.id)) takeStep(fold, event);
  return { events: ordered, ...fold };
}

/**
 * The log with one more event; the same state as folding all of them again. An answer or a met line
 * that comes last, as nearly all do, costs no more than the number of cards.
 */
export function addToLog(log: LogState, event: LogEvent): LogState {
  const last = log.events[log.events.length - 1];
  const comesLast = !last || compareEvents(last, event) < 0;
  if (!comesLast || event.type === 'taken back') return foldLog(mergeLogs(log.events, [event]));
  const fold: Fold = {
    memories: new Map(log.memories),
    met: new Map(log.met),
    times: new Map([...log.times].map(([kind, list]) => [kind, [...list]])),
    takenBack: log.takenBack,
    steps: log.steps,
  };
  // Taken back before it got here, by a tab that is ahead.
  if (!log.takenBack.has(event.id)) takeStep(fold, event);
  return { events: [...log.events, event], ...fold };
}

function takeStep(fold: Fold, event: LogEvent): void {
  if (event.type === 'answered') {
    fold.memories.set(event.card, answered(fold.memories.get(event.card), event, fold.steps));
    fold.steps += 1;
    noteTime(fold.times, event);
  } else if (event.type === 'met' && !fold.met.has(event.line)) {
    fold.met.set(event.line, { day: event.day, step: fold.steps });
    fold.steps += 1;
  }
}

function answered(before: CardMemory | undefined, event: Answered, step: number): CardMemory {
  const days = before ? event.day - before.lastDay : 0;
  const memory = remember(before ?? null, days, event.outcome);
  const misses = before?.lastDay === event.day ? before.missesInARow : 0;
  return {
    stability: memory.stability,
    difficulty: memory.difficulty,
    firstDay: before?.firstDay ?? event.day,
    lastDay: event.day,
    lastOutcome: event.outcome,
    answers: (before?.answers ?? 0) + 1,
    missesInARow: event.outcome === 'off' ? misses + 1 : 0,
    lastStep: step,
  };
}

/** "Show me" is not an answer in any time, so it does not count towards the pace. */
function noteTime(times: Map<Kind, number[]>, event: Answered): void {
  if (event.answer === null) return;
  const list = times.get(event.kind) ?? [];
  list.push(event.ms);
  if (list.length > RECENT) list.shift();
  times.set(event.kind, list);
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
    if (event && event.day <= today && fits(event) && !log.takenBack.has(event.id)) return event;
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
