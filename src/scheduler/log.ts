/** The log, folded: what is remembered of each card, and what the queue needs to know. Pure. */

import type { Kind } from '../cards/index.ts';
import { type Answered, compareEvents, type LogEvent } from './events.ts';
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

/** Folds a log given in any order; the result depends on the set of events alone. */
export function foldLog(events: readonly LogEvent[]): LogState {
  const ordered = [...events].sort(compareEvents);
  const takenBack = new Set<string>();
  for (const event of ordered) if (event.type === 'taken back') takenBack.add(event.answered);
  const memories = new Map<string, CardMemory>();
  const met = new Map<string, MetLine>();
  const times = new Map<Kind, number[]>();
  let steps = 0;
  let lastShown: string | null = null;
  let lastAnswer: Answered | null = null;
  for (const event of ordered) {
    if (event.type === 'answered' && !takenBack.has(event.id)) {
      memories.set(event.card, answered(memories.get(event.card), event, steps++));
      noteTime(times, event);
      lastAnswer = event;
      lastShown = event.card;
    } else if (event.type === 'met' && !met.has(event.line)) {
      met.set(event.line, { day: event.day, step: steps++ });
      lastShown = event.line;
    }
  }
  return { events: ordered, memories, met, steps, lastShown, times, lastAnswer };
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
