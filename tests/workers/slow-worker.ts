import type { Port, Reply, Sent } from '../../src/workers/client.ts';

export interface SlowWorker<Request, Answer, Progress> {
  readonly sent: Sent<Request>[];
  readonly reply: (reply: Reply<Answer, Progress>) => void;
  readonly fail: (reason: string) => void;
  /** How often it was terminated. */
  ended: number;
}

/** Workers that reply when the test tells them to. */
export function slowWorkers<Request, Answer, Progress = never>() {
  const workers: SlowWorker<Request, Answer, Progress>[] = [];
  const sent: Sent<Request>[] = [];
  const start = (): Port => {
    const on: { message?: (event: never) => void; error?: (event: never) => void } = {};
    const worker: (typeof workers)[number] = {
      sent: [],
      reply: (reply) => on.message?.({ data: reply } as never),
      fail: (message) => on.error?.({ message } as never),
      ended: 0,
    };
    workers.push(worker);
    return {
      postMessage: (message) => {
        worker.sent.push(message as Sent<Request>);
        sent.push(message as Sent<Request>);
      },
      addEventListener: (type: 'message' | 'error', listener: (event: never) => void) => {
        on[type] = listener;
      },
      terminate: () => {
        worker.ended += 1;
      },
    };
  };
  return {
    start,
    /** Those that were started, in order. */
    workers,
    /** What all of them were sent, in order. */
    sent,
    /** Of the worker started last. */
    reply: (reply: Reply<Answer, Progress>) => workers.at(-1)?.reply(reply),
    fail: (reason: string) => workers.at(-1)?.fail(reason),
  };
}
