/** The page's side of a worker: gives each request an id, by which it knows the replies. */

export interface Sent<Request> {
  readonly id: number;
  readonly request: Request;
}

export type Reply<Answer, Progress = never> =
  | { readonly id: number; readonly answer: Answer }
  | { readonly id: number; readonly progress: Progress }
  /** Message of what the worker's handler threw. */
  | { readonly id: number; readonly failed: string };

/** What is needed of a Worker. */
export interface Port {
  readonly postMessage: (message: unknown) => void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message: string }) => void): void;
  readonly terminate: () => void;
}

/** `failed`: the handler threw. `stopped`: the worker itself could not run on. */
export type Outcome<Answer> =
  | { readonly at: 'answered'; readonly answer: Answer }
  | { readonly at: 'failed' | 'stopped'; readonly why: string };

export interface Listeners<Answer, Progress = never> {
  readonly onOutcome: (outcome: Outcome<Answer>) => void;
  readonly onProgress?: (progress: Progress) => void;
}

export interface Client<Request, Answer, Progress = never> {
  readonly send: (request: Request, listeners: Listeners<Answer, Progress>) => void;
  /** Ends the worker. Open requests have no outcome; the next request starts a new worker. */
  readonly stop: () => void;
}

/** @param start starts a worker; called for the first request, and again after a worker stopped */
export function createClient<Request, Answer, Progress = never>(
  start: () => Port,
): Client<Request, Answer, Progress> {
  const open = new Map<number, Listeners<Answer, Progress>>();
  let worker: Port | null = null;
  let last = 0;
  const finish = (id: number, outcome: Outcome<Answer>): void => {
    const listeners = open.get(id);
    open.delete(id);
    listeners?.onOutcome(outcome);
  };
  const hear = (reply: Reply<Answer, Progress>): void => {
    if ('progress' in reply) open.get(reply.id)?.onProgress?.(reply.progress);
    else if ('answer' in reply) finish(reply.id, { at: 'answered', answer: reply.answer });
    else finish(reply.id, { at: 'failed', why: reply.failed });
  };
  const stop = (): void => {
    worker?.terminate();
    worker = null;
  };
  const begin = (): Port => {
    const port = start();
    port.addEventListener('message', ({ data }) => hear(data as Reply<Answer, Progress>));
    port.addEventListener('error', ({ message }) => {
      if (port !== worker) return;
      stop();
      const why = message || 'it could not be loaded';
      for (const id of [...open.keys()]) finish(id, { at: 'stopped', why });
    });
    return port;
  };
  return {
    send: (request, listeners) => {
      last += 1;
      open.set(last, listeners);
      worker ??= begin();
      worker.postMessage({ id: last, request } satisfies Sent<Request>);
    },
    stop: () => {
      open.clear();
      stop();
    },
  };
}
