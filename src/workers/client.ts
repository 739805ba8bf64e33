/** The page's side of a worker. It gives each request an id, to match the replies to the requests. */

export interface Sent<Request> {
  readonly id: number;
  readonly request: Request;
}

export type Reply<Answer, Progress = never> =
  | { readonly id: number; readonly answer: Answer }
  | { readonly id: number; readonly progress: Progress }
  /** `failed` is the message of the error that the worker's handler threw. */
  | { readonly id: number; readonly failed: string };

/** The part of a `Worker` that is needed here. */
export interface Port {
  readonly postMessage: (message: unknown) => void;
  addEventListener(type: 'message', listener: (event: { readonly data: unknown }) => void): void;
  addEventListener(type: 'error', listener: (event: { readonly message: string }) => void): void;
  readonly terminate: () => void;
}

/** 'failed' means that the handler threw; 'stopped' means that the worker itself could not run. */
export type Outcome<Answer> =
  | { readonly at: 'answered'; readonly answer: Answer }
  | { readonly at: 'failed' | 'stopped'; readonly why: string };

export interface Listeners<Answer, Progress = never> {
  readonly onOutcome: (outcome: Outcome<Answer>) => void;
  readonly onProgress?: (progress: Progress) => void;
}

export class Client<Request, Answer, Progress = never> {
  readonly #start: () => Port;
  readonly #open = new Map<number, Listeners<Answer, Progress>>();
  #worker: Port | null = null;
  #last = 0;

  /** @param start starts a worker; called at the first request, and again after a worker stopped */
  constructor(start: () => Port) {
    this.#start = start;
  }

  send(request: Request, listeners: Listeners<Answer, Progress>): void {
    this.#last += 1;
    this.#open.set(this.#last, listeners);
    this.#worker ??= this.#begin();
    this.#worker.postMessage({ id: this.#last, request } satisfies Sent<Request>);
  }

  /** Ends the worker. Open requests get no outcome. The next request starts a new worker. */
  stop(): void {
    this.#open.clear();
    this.#end();
  }

  #begin(): Port {
    const port = this.#start();
    port.addEventListener('message', ({ data }) => this.#hear(data as Reply<Answer, Progress>));
    port.addEventListener('error', ({ message }) => {
      if (port === this.#worker) this.#fail(message || 'it could not be loaded');
    });
    return port;
  }

  #hear(reply: Reply<Answer, Progress>): void {
    if ('progress' in reply) this.#open.get(reply.id)?.onProgress?.(reply.progress);
    else if ('answer' in reply) this.#finish(reply.id, { at: 'answered', answer: reply.answer });
    else this.#finish(reply.id, { at: 'failed', why: reply.failed });
  }

  #fail(why: string): void {
    this.#end();
    for (const id of [...this.#open.keys()]) this.#finish(id, { at: 'stopped', why });
  }

  #finish(id: number, outcome: Outcome<Answer>): void {
    const listeners = this.#open.get(id);
    this.#open.delete(id);
    listeners?.onOutcome(outcome);
  }

  #end(): void {
    this.#worker?.terminate();
    this.#worker = null;
  }
}
