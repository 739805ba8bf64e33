/** Runs of drills as the player made them, and the one under way. Read from the log alone. */

import { type Drilled, type DrillRun, drillRuns, type LogState } from '../../scheduler/index.ts';
import { type DrillSpec, parseDrill } from './code.ts';
import { MOST_ASKED } from './questions.ts';

/** One run through a drill, begun on one device and perhaps gone on with on another. */
export type Run = Omit<DrillRun, 'device'>;

/**
 * All runs, oldest first. A run's name is the instant it began, so runs of one code and name are
 * one, whichever device answered.
 */
export function runsIn(log: LogState): readonly Run[] {
  const kept = read.get(log);
  if (kept) return kept;
  const runs = new Map<string, Run>();
  for (const { device: _, ...run } of drillRuns(log)) {
    const key = `${run.code} ${run.run}`;
    const begun = runs.get(key);
    runs.set(key, begun ? joined(begun, run) : run);
  }
  const all = [...runs.values()];
  read.set(log, all);
  return all;
}

/** A log is read once, however many ask. */
const read = new WeakMap<LogState, readonly Run[]>();

/** Of a question that two devices answered, the first answer counts. */
function joined(first: Run, second: Run): Run {
  const taken = new Set(first.questions.map(({ n }) => n));
  const questions = [...first.questions, ...second.questions.filter(({ n }) => !taken.has(n))];
  return { ...first, questions: questions.sort((a, b) => a.n - b.n) };
}

/** The answers of one run, each question once, without looking at the others. */
export function answersIn(log: LogState, code: string, name: string): readonly Drilled[] {
  const first = new Map<number, Drilled>();
  for (const event of log.events) {
    if (event.type !== 'drilled' || event.run !== name || event.code !== code) continue;
    if (!first.has(event.n)) first.set(event.n, event);
  }
  return [...first.values()].sort((a, b) => a.n - b.n);
}

/** The newest run of a code on a study-day; it is gone on with, or if it is over, looked at. */
export function runOf(runs: readonly Run[], code: string, day: number): Run | null {
  return runs.findLast((run) => run.code === code && run.day === day) ?? null;
}

export function specOf({ code }: Pick<Run, 'code'>): DrillSpec | null {
  const parsed = parseDrill(code);
  return parsed.ok ? parsed.spec : null;
}

/** The first question that has no answer yet. */
export function nextOf(questions: readonly Pick<Drilled, 'n'>[]): number {
  const taken = new Set(questions.map(({ n }) => n));
  let next = 0;
  while (taken.has(next)) next += 1;
  return next;
}

/** Has it been answered to its end. A code that cannot be read has nothing left to ask. */
export function isOver(run: Run): boolean {
  const spec = specOf(run);
  return !spec || nextOf(run.questions) >= (spec.count ?? MOST_ASKED);
}

/** Was it left before its end. An endless one has none that a player would get to. */
export function isUnfinished(run: Run): boolean {
  return !isOver(run) && specOf(run)?.count !== null;
}
