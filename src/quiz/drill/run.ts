/** The player's runs of drills, finished or not, read from the log alone. */

import { type Drilled, type DrillRun, drillRuns, type LogState } from '../../scheduler/index.ts';
import { type DrillSpec, parseDrill } from './code.ts';
import { MOST_ASKED } from './questions.ts';

/** One pass through a drill, begun on one device and perhaps continued on another. */
export type Run = Omit<DrillRun, 'device'>;

/**
 * Returns all runs, oldest first. A run's name is the time at which it began. Answers with the same
 * code and name belong to the same run, whichever device they came from.
 */
export function runsIn(log: LogState): readonly Run[] {
  const cached = cache.get(log);
  if (cached) return cached;
  const runs = new Map<string, Run>();
  for (const { device: _, ...run } of drillRuns(log)) {
    const key = `${run.code} ${run.run}`;
    const begun = runs.get(key);
    runs.set(key, begun ? joined(begun, run) : run);
  }
  const all = [...runs.values()];
  cache.set(log, all);
  return all;
}

/** The runs read from each log, so that they are read only once. */
const cache = new WeakMap<LogState, readonly Run[]>();

/**
 * Merges two parts of the same run. If a question was answered in both, the first answer counts.
 */
function joined(first: Run, second: Run): Run {
  const taken = new Set(first.questions.map(({ n }) => n));
  const questions = [...first.questions, ...second.questions.filter(({ n }) => !taken.has(n))];
  return { ...first, questions: questions.sort((a, b) => a.n - b.n) };
}

/** Returns the answers of one run, one per question, without reading the other runs. */
export function answersIn(log: LogState, code: string, name: string): readonly Drilled[] {
  const first = new Map<number, Drilled>();
  for (const event of log.events) {
    if (event.type !== 'drilled' || event.run !== name || event.code !== code) continue;
    if (!first.has(event.n)) first.set(event.n, event);
  }
  return [...first.values()].sort((a, b) => a.n - b.n);
}

/**
 * Returns the newest run of a code on a study day. The player can continue it or, if it is over,
 * look at it.
 */
export function runOf(runs: readonly Run[], code: string, day: number): Run | null {
  return runs.findLast((run) => run.code === code && run.day === day) ?? null;
}

export function specOf({ code }: Pick<Run, 'code'>): DrillSpec | null {
  const parsed = parseDrill(code);
  return parsed.ok ? parsed.spec : null;
}

/** Returns the number of the first question without an answer, counted from 0. */
export function nextOf(questions: readonly Pick<Drilled, 'n'>[]): number {
  const taken = new Set(questions.map(({ n }) => n));
  let next = 0;
  while (taken.has(next)) next += 1;
  return next;
}

/**
 * Tells whether every question is answered. A run with an unreadable code has nothing left to ask.
 */
export function isOver(run: Run): boolean {
  const spec = specOf(run);
  return !spec || nextOf(run.questions) >= (spec.count ?? MOST_ASKED);
}

/**
 * Tells whether the player left before the end. This is false for an endless drill, which no player
 * finishes.
 */
export function isUnfinished(run: Run): boolean {
  return !isOver(run) && specOf(run)?.count !== null;
}
