/** Asks the solving worker for sheets: the newest request wins. */

import type { Sheet, SheetRequest } from '../charts/index.ts';
import { askNewest, type Port, type Reply } from './newest.ts';

/** The sheets that are wanted, and a number that only grows. */
export interface SolveRequest {
  readonly id: number;
  readonly sheets: readonly SheetRequest[];
}

export type SolveReply = Reply<{ readonly sheets: readonly Sheet[] }>;

/** What is needed of a Worker. */
export type WorkerPort = Port<
  { readonly sheets: readonly SheetRequest[] },
  { readonly sheets: readonly Sheet[] }
>;

export type Solved =
  | { readonly ok: true; readonly sheets: readonly Sheet[] }
  | { readonly ok: false; readonly say: string };

export interface Solver {
  /** Calls back once, unless a newer request takes this one's place before it is begun. */
  readonly ask: (sheets: readonly SheetRequest[], done: (solved: Solved) => void) => void;
}

export function createSolver(port: WorkerPort): Solver {
  const ask = askNewest(port);
  return {
    ask: (sheets, done) =>
      ask({ sheets }, (answered) =>
        done(answered.ok ? { ok: true, sheets: answered.answer.sheets } : answered),
      ),
  };
}
