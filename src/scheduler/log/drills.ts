/** Finds the played drills in the log. */

import type { Drilled, LogEvent } from './events.ts';
import type { LogState } from './state.ts';

/** One run through a drill, finished or not. */
export interface DrillRun {
  readonly device: string;
  readonly run: string;
  readonly code: string;
  /** The study day and the time of the first answer. */
  readonly day: number;
  readonly at: number;
  /** The questions in the drill's order, each with its first answer. */
  readonly questions: readonly Drilled[];
}

/** Returns all runs, oldest first. A run belongs to one device, but two of its tabs may answer it. */
export function drillRuns(log: LogState): readonly DrillRun[] {
  const runs = new Map<string, Map<number, Drilled>>();
  for (const event of log.events.filter(isDrilled)) {
    // A device's name has no space (event-schema.ts), so no two runs share a key.
    const key = `${event.device} ${event.run}`;
    const run = runs.get(key) ?? new Map<number, Drilled>();
    if (!run.has(event.n)) run.set(event.n, event);
    runs.set(key, run);
  }
  return [...runs.values()].map((run) => runOf([...run.values()]));
}

function runOf(questions: readonly Drilled[]): DrillRun {
  const { device, run, code, day, at } = questions[0] as Drilled;
  return { device, run, code, day, at, questions: [...questions].sort((a, b) => a.n - b.n) };
}

function isDrilled(event: LogEvent): event is Drilled {
  return event.type === 'drilled';
}
