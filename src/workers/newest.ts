/**
 * The page's side of a worker. At most one request is under way; of those that come meanwhile only
 * the newest is kept, so that what changes quickly is never answered late.
 */

/** What is asked, with a number that only grows. */
export type Asked<T> = T & { readonly id: number };

export type Reply<T> =
  | (T & { readonly id: number })
  | { readonly id: number; readonly failed: string };

/** What is needed of a Worker. */
export interface Port<Request, Answer> {
  readonly postMessage: (request: Asked<Request>) => void;
  readonly listen: (
    onReply: (reply: Reply<Answer>) => void,
    onError: (reason: string) => void,
  ) => void;
}

export type Answered<Answer> =
  | { readonly ok: true; readonly answer: Answer }
  | { readonly ok: false; readonly say: string };

/** Calls back once, unless a newer request takes this one's place before it is begun. */
export type Ask<Request, Answer> = (
  request: Request,
  done: (answered: Answered<Answer>) => void,
) => void;

interface Job<Request, Answer> {
  readonly request: Asked<Request>;
  readonly done: (answered: Answered<Answer>) => void;
}

export function askNewest<Request extends object, Answer extends object>(
  port: Port<Request, Answer>,
): Ask<Request, Answer> {
  let last = 0;
  let underWay: Job<Request, Answer> | null = null;
  let newest: Job<Request, Answer> | null = null;

  const begin = (job: Job<Request, Answer>): void => {
    underWay = job;
    port.postMessage(job.request);
  };

  const finish = (answered: Answered<Answer>): void => {
    const job = underWay;
    const next = newest;
    underWay = null;
    newest = null;
    if (next) begin(next);
    job?.done(answered);
  };

  port.listen(
    (reply) => {
      if (reply.id !== underWay?.request.id) return;
      if ('failed' in reply)
        finish({ ok: false, say: `The numbers could not be worked out: ${reply.failed}` });
      else finish({ ok: true, answer: reply });
    },
    (reason) => finish({ ok: false, say: `The solver stopped: ${reason}. Reload the page.` }),
  );

  return (request, done) => {
    last += 1;
    const job = { request: { ...request, id: last }, done };
    if (underWay) newest = job;
    else begin(job);
  };
}
