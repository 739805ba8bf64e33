/**
 * The page's side of the solving worker. At most one request is under way; of those that come
 * meanwhile only the newest is kept, so a slider that is dragged is never answered late.
 */

import type { Sheet, SheetRequest } from '../charts/index.ts';

/** The sheets that are wanted, and a number that only grows. */
export interface SolveRequest {
  readonly id: number;
  readonly sheets: readonly SheetRequest[];
}

export type SolveReply =
  | { readonly id: number; readonly sheets: readonly Sheet[] }
  | { readonly id: number; readonly failed: string };

/** What is needed of a Worker. */
export interface WorkerPort {
  readonly postMessage: (request: SolveRequest) => void;
  readonly listen: (
    onReply: (reply: SolveReply) => void,
    onError: (reason: string) => void,
  ) => void;
}

export type Solved =
  | { readonly ok: true; readonly sheets: readonly Sheet[] }
  | { readonly ok: false; readonly say: string };

export interface Solver {
  /** Calls back once, unless a newer request takes this one's place before it is begun. */
  readonly ask: (sheets: readonly SheetRequest[], done: (solved: Solved) => void) => void;
}

interface Job {
  readonly request: SolveRequest;
  readonly done: (solved: Solved) => void;
}

export function createSolver(port: WorkerPort): Solver {
  let last = 0;
  let underWay: Job | null = null;
  let newest: Job | null = null;

  const begin = (job: Job): void => {
    underWay = job;
    port.postMessage(job.request);
  };

  const finish = (solved: Solved): void => {
    const job = underWay;
    const next = newest;
    underWay = null;
    newest = null;
    if (next) begin(next);
    job?.done(solved);
  };

  port.listen(
    (reply) => {
      if (reply.id !== underWay?.request.id) return;
      if ('sheets' in reply) finish({ ok: true, sheets: reply.sheets });
      else finish({ ok: false, say: `The numbers could not be worked out: ${reply.failed}` });
    },
    (reason) => finish({ ok: false, say: `The solver stopped: ${reason}. Reload the page.` }),
  );

  return {
    ask: (sheets, done) => {
      last += 1;
      const job = { request: { id: last, sheets }, done };
      if (underWay) newest = job;
      else begin(job);
    },
  };
}
