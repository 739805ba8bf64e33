/** The log, folded: what is remembered of each card, and what the queue needs to know. Pure. */

import type { Kind } from '../cards/index.ts';
import { type Answered, compareEvents, type LogEvent, mergeLogs } from './events.ts';
import { type Memory, remember } from './memory.ts';

export interface CardMemory extends Memory {
  readonly firstDay: number;
  readonly lastDay: number;
  readonly lastOutcome: Answered['outcome'];
  readonly answers: number;
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
  /** Card or line of the last step. */
  readonly lastShown: string | null;
  /** Recent answer times per kind, milliseconds, newest last. */
  readonly times: ReadonlyMap<Kind, readonly number[]>;
  /** The last answer that still counts, by order of the log. */
  readonly lastAnswer: Answered | null;
}

/** So many recent times make a player's pace. */
const RECENT = 100;

/** A fold under way. */
interface Fold {
  readonly memories: Map<string, CardMemory>;
  readonly met: Map<string, MetLine>;
  readonly times: Map<Kind, number[]>;
  steps: number;
  lastShown: string | null;
  lastAnswer: Answered | null;
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
    steps: 0,
    lastShown: null,
    lastAnswer: null,
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
  // An answer that was taken back before it got here, by a tab that is ahead, is not taken in.
  const gone = log.events.some((one) => one.type === 'taken back' && one.answered === event.id);
  const fold: Fold = {
    memories: new Map(log.memories),
    met: new Map(log.met),
    times: new Map([...log.times].map(([kind, list]) => [kind, [...list]])),
    steps: log.steps,
    lastShown: log.lastShown,
    lastAnswer: log.lastAnswer,
  };
  if (!gone) takeStep(fold, event);
  return { events: [...log.events, event], ...fold };
}

function takeStep(fold: Fold, event: LogEvent): void {
  if (event.type === 'answered') {
    fold.memories.set(event.card, answered(fold.memories.get(event.card), event, fold.steps));
    fold.lastAnswer = event;
    fold.lastShown = event.card;
    fold.steps += 1;
    noteTime(fold.times, event);
  } else if (event.type === 'met' && !fold.met.has(event.line)) {
    fold.met.set(event.line, { day: event.day, step: fold.steps });
    fold.lastShown = event.line;
    fold.steps += 1;
  }
}

function answered(before: CardMemory | undefined, event: Answered, step: number): CardMemory {
  const days = before ? event.day - before.lastDay : 0;
  const memory = remember(before ?? null, days, event.outcome);
  return {
    stability: memory.stability,
    difficulty: memory.difficulty,
    firstDay: before?.firstDay ?? event.day,
    lastDay: event.day,
    lastOutcome: event.outcome,
    answers: (before?.answers ?? 0) + 1,
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
