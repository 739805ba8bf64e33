/** A client and `serve` on two ends of one line, which clones what it carries, as a browser does. */

import { afterEach, describe, expect, it, vi } from 'vitest';
import { Client, type Outcome, type Port } from '../../src/workers/client.ts';
import { serve } from '../../src/workers/serve.ts';

afterEach(() => {
  vi.unstubAllGlobals();
});

type Listener = (event: { data: unknown }) => void;

/** Starts a worker that serves with this handler, and returns the page's end of it. */
function working<Request, Answer, Progress>(
  handler: Parameters<typeof serve<Request, Answer, Progress>>[0],
) {
  const listeners: { page?: Listener; worker?: Listener } = {};
  vi.stubGlobal('self', {
    addEventListener: (_: 'message', listener: Listener) => {
      listeners.worker = listener;
    },
    postMessage: (message: unknown) => listeners.page?.({ data: structuredClone(message) }),
  });
  serve(handler);
  const port: Port = {
    postMessage: (message) => listeners.worker?.({ data: structuredClone(message) }),
    addEventListener: (type: 'message' | 'error', listener: (event: never) => void) => {
      if (type === 'message') listeners.page = listener as Listener;
    },
    terminate: () => undefined,
  };
  const client = new Client<Request, Answer, Progress>(() => port);
  const progress: Progress[] = [];
  const ask = (request: Request): Promise<Outcome<Answer>> =>
    new Promise((resolve) => {
      client.send(request, { onOutcome: resolve, onProgress: (part) => progress.push(part) });
    });
  return { ask, progress };
}

describe('a served worker', () => {
  it('answers with what the handler returns, now or later', async () => {
    const { ask } = working((n: number) => (n % 2 ? n * n : Promise.resolve(n * n)));
    const answers = await Promise.all([1, 2, 3, 4].map(ask));
    expect(answers).toEqual([1, 4, 9, 16].map((answer) => ({ at: 'answered', answer })));
  });

  it.each([
    [
      'throws',
      () => {
        throw new RangeError('no such table');
      },
    ],
    ['rejects', () => Promise.reject(new Error('no such table'))],
    [
      'throws a text',
      () => {
        throw 'no such table';
      },
    ],
  ] as const)('whose handler %s tells why, and serves the next request', async (_, bad) => {
    const { ask } = working((isBad: boolean) => (isBad ? bad() : 'fine'));
    expect(await ask(true)).toEqual({ at: 'failed', why: 'no such table' });
    expect(await ask(false)).toEqual({ at: 'answered', answer: 'fine' });
  });

  it('whose answer cannot be cloned tells so', async () => {
    const { ask } = working(() => () => undefined);
    expect(await ask(undefined)).toMatchObject({ at: 'failed', why: expect.any(String) });
  });

  it('reports progress of a request before its answer', async () => {
    const { ask, progress } = working(async (n: number, report: (part: number) => void) => {
      for (let part = 0; part < n; part++) report(part);
      return 'done';
    });
    expect(await ask(3)).toEqual({ at: 'answered', answer: 'done' });
    expect(progress).toEqual([0, 1, 2]);
  });
});
