import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { Client, type Outcome } from '../../src/workers/client.ts';
import { slowWorkers } from './slow-worker.ts';

function begin() {
  const slow = slowWorkers<string, string, number>();
  const client = new Client<string, string, number>(slow.start);
  const got: [request: string, outcome: Outcome<string>][] = [];
  const progress: [request: string, progress: number][] = [];
  const send = (request: string): void =>
    client.send(request, {
      onOutcome: (outcome) => got.push([request, outcome]),
      onProgress: (part) => progress.push([request, part]),
    });
  return { ...slow, client, send, got, progress };
}

describe('the client of a worker', () => {
  it('starts the worker with the first request, once', () => {
    const { send, workers } = begin();
    expect(workers).toHaveLength(0);
    send('a');
    send('b');
    expect(workers).toHaveLength(1);
  });

  // Law: every request has its own id, and the outcome of that id, once, in whatever order.
  it('gives each request its own answer, however the replies are ordered', () => {
    fc.assert(
      fc.property(
        fc.array(fc.string(), { maxLength: 20 }),
        fc.infiniteStream(fc.nat()),
        (requests, picks) => {
          const { send, sent, reply, got } = begin();
          for (const request of requests) send(request);
          const open = [...sent];
          expect(new Set(open.map(({ id }) => id)).size).toBe(requests.length);
          const replied: typeof got = [];
          for (const pick of picks) {
            const [one] = open.splice(pick % Math.max(1, open.length), 1);
            if (!one) break;
            const answer = `to ${one.id}`;
            reply({ id: one.id, answer });
            reply({ id: one.id, answer: 'a second one' });
            replied.push([one.request, { at: 'answered', answer }]);
          }
          expect(got).toEqual(replied);
        },
      ),
    );
  });

  it('tells a handler that threw', () => {
    const { send, sent, reply, got } = begin();
    send('a');
    reply({ id: sent[0]?.id ?? 0, failed: 'no such table' });
    expect(got).toEqual([['a', { at: 'failed', why: 'no such table' }]]);
  });

  it('passes on progress while the request is open', () => {
    const { send, sent, reply, progress } = begin();
    send('a');
    const id = sent[0]?.id ?? 0;
    reply({ id, progress: 0.5 });
    reply({ id, answer: 'done' });
    reply({ id, progress: 0.7 });
    expect(progress).toEqual([['a', 0.5]]);
  });

  it.each([
    ['out of memory', 'out of memory'],
    ['', 'it could not be loaded'],
  ])(
    'ends all open requests if the worker stops (%j), and starts anew with the next',
    (reason, why) => {
      const { send, sent, fail, reply, got, workers } = begin();
      send('a');
      send('b');
      fail(reason);
      expect(got).toEqual([
        ['a', { at: 'stopped', why }],
        ['b', { at: 'stopped', why }],
      ]);
      expect(workers.map(({ ended }) => ended)).toEqual([1]);
      send('c');
      workers[0]?.fail('late');
      reply({ id: sent[2]?.id ?? 0, answer: 'c' });
      expect(workers).toHaveLength(2);
      expect(got[2]).toEqual(['c', { at: 'answered', answer: 'c' }]);
    },
  );

  it('says nothing more of open requests once it is stopped', () => {
    const { client, send, sent, reply, got, workers } = begin();
    send('a');
    client.stop();
    client.stop();
    reply({ id: sent[0]?.id ?? 0, answer: 'late' });
    workers[0]?.fail('late');
    expect(got).toEqual([]);
    expect(workers[0]?.ended).toBe(1);
  });
});
