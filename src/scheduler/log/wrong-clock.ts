/**
 * Clocks that were wrong. A device numbers its events as it writes them, so an event dated days after
 * a later one of the same device, or days before an earlier one, tells of a clock that jumped. A flat
 * battery dates an evening in 1970, a slip in the settings dates it a year ahead; left so, a card
 * would not fall due for that year.
 *
 * Of the study-days that a device told in turn the longest row that does not run backwards is taken
 * as true; of two as long, the one that ends with what the clock said last. The other days become
 * those of their neighbours. A day back is a traveller's, not a fault.
 */

import { compareEvents, type LogEvent } from './events.ts';
import { type Survey, TRAVEL } from './survey.ts';

/**
 * The events as they were most likely given, in the order of the log; the very same list if no clock
 * was wrong.
 */
export function withoutWrongClocks({
  ordered,
  wrong,
}: Pick<Survey, 'ordered' | 'wrong'>): readonly LogEvent[] {
  if (wrong.size === 0) return ordered;
  const dated = new Map<string, LogEvent>();
  for (const device of wrong) {
    const own = ordered.filter((event) => event.device === device);
    for (const event of redated(own)) dated.set(event.id, event);
  }
  return ordered.map((event) => dated.get(event.id) ?? event).sort(compareEvents);
}

/** Events of one device, told on one study-day in a row. */
interface Run {
  readonly day: number;
  readonly events: LogEvent[];
  /** Length of the longest row of true days that ends here, and the run before it in that row. */
  length: number;
  before: Run | null;
}

function redated(own: readonly LogEvent[]): readonly LogEvent[] {
  const runs = runsOf([...own].sort((a, b) => a.seq - b.seq));
  const right = longestRow(runs);
  const first = runs.find((run) => right.has(run));
  let near = first?.events[0];
  return runs.flatMap((run) => {
    if (right.has(run)) {
      near = run.events[run.events.length - 1];
      return run.events;
    }
    const { day, at } = near as LogEvent;
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

function longestRow(runs: readonly Run[]): ReadonlySet<Run> {
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
  const row = new Set<Run>();
  for (let run: Run | null = best; run; run = run.before) row.add(run);
  return row;
}
