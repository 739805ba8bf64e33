/**
 * Corrects the dates of events from clocks that were wrong. A device numbers its events as it writes
 * them. If an event is dated days after a later one from the same device, or days before an earlier
 * one, the clock jumped. A flat battery dates an evening in 1970; a mistake in the settings dates it a
 * year ahead. If such a date stayed, a card would not be due for that year.
 *
 * The correction looks at the study days in the order in which the device numbered its events. The
 * longest sequence that does not go backward counts as right. Of two equally long sequences, the one
 * that ends with the latest events counts. The other days are changed to those of their neighbors. A
 * clock that goes back one day is not wrong, because the player may have traveled.
 */

import { compareEvents, type LogEvent } from './events.ts';
import { type Survey, TRAVEL } from './survey.ts';

/**
 * Returns the events with their likely dates, in the order of the log. Returns the same list if no
 * clock was wrong.
 */
export function correctClocks({
  ordered,
  wrongClocks,
}: Pick<Survey, 'ordered' | 'wrongClocks'>): readonly LogEvent[] {
  if (wrongClocks.size === 0) return ordered;
  const dated = new Map<string, LogEvent>();
  for (const device of wrongClocks) {
    const own = ordered.filter((event) => event.device === device);
    for (const event of redated(own)) dated.set(event.id, event);
  }
  return ordered.map((event) => dated.get(event.id) ?? event).sort(compareEvents);
}

/** Consecutive events of one device that are dated on the same study day. */
interface Run {
  readonly day: number;
  readonly events: LogEvent[];
  /**
   * The length of the longest sequence of right days that ends with this run. `before` is the run
   * before this one in that sequence.
   */
  length: number;
  before: Run | null;
}

function redated(own: readonly LogEvent[]): readonly LogEvent[] {
  const runs = runsOf([...own].sort((a, b) => a.seq - b.seq));
  const right = longestSequence(runs);
  const first = runs.find((run) => right.has(run));
  let neighbor = first?.events[0];
  return runs.flatMap((run) => {
    if (right.has(run)) {
      neighbor = run.events[run.events.length - 1];
      return run.events;
    }
    const { day, at } = neighbor as LogEvent;
    return run.events.map((event) => ({ ...event, day, at }));
  });
}

function runsOf(events: readonly LogEvent[]): readonly Run[] {
  const runs: Run[] = [];
  for (const event of events) {
    const last = runs[runs.length - 1];
    if (last?.day === event.day) last.events.push(event);
    else runs.push({ day: event.day, events: [event], length: 1, before: null });
  }
  return runs;
}

function longestSequence(runs: readonly Run[]): ReadonlySet<Run> {
  let best: Run | null = null;
  for (const [n, run] of runs.entries()) {
    for (let m = n - 1; m >= 0; m--) {
      const before = runs[m] as Run;
      if (before.length >= run.length && before.day <= run.day + TRAVEL) {
        run.before = before;
        run.length = before.length + 1;
      }
    }
    if (!best || run.length >= best.length) best = run;
  }
  const sequence = new Set<Run>();
  for (let run: Run | null = best; run; run = run.before) sequence.add(run);
  return sequence;
}
