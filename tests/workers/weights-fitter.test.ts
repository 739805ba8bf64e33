import { describe, expect, it } from 'vitest';
import type { PersonalWeights } from '../../src/scheduler/index.ts';
import { createWeightsFitter, type FitEnd, type WeightsReply } from '../../src/workers/index.ts';

const result: PersonalWeights = { verdict: 'too little', answers: 12, needed: 388 };
const WEIGHTS = [0.2, 1.3];

/** Workers that reply when they are told to. */
function slowWorkers() {
  const workers: {
    reply: (reply: WeightsReply) => void;
    fail: (reason: string) => void;
    sent: (readonly number[])[];
    ended: number;
  }[] = [];
  const fitter = createWeightsFitter(() => {
    const worker: (typeof workers)[number] = {
      reply: () => undefined,
      fail: () => undefined,
      sent: [],
      ended: 0,
    };
    workers.push(worker);
    return {
      begin: (weights) => worker.sent.push(weights),
      listen: (onReply, onError) => {
        worker.reply = onReply;
        worker.fail = onError;
      },
      terminate: () => {
        worker.ended += 1;
      },
    };
  });
  const begun = (told: number[] = []) => {
    const fitting = fitter.fit(WEIGHTS, (done) => told.push(done));
    const worker = workers.at(-1);
    if (!worker) throw new Error('no worker was started');
    return { ...fitting, worker };
  };
  return { begun, workers };
}

describe('the weights fitter', () => {
  it('gives back what the worker found, and ends the worker', async () => {
    const { begun } = slowWorkers();
    const { worker, done } = begun();
    expect(worker.sent).toEqual([WEIGHTS]);
    worker.reply({ at: 'done', result });
    expect(await done).toEqual({ at: 'done', result });
    expect(worker.ended).toBe(1);
  });

  it('tells how far it is, never going back', () => {
    const told: number[] = [];
    const { worker } = slowWorkers().begun(told);
    for (const done of [0.1, 0.4, 0.3, 0.9]) worker.reply({ at: 'under way', done, loss: 0.4 });
    expect(told).toEqual([0.1, 0.4, 0.4, 0.9]);
  });

  it('is stopped by ending its worker, and says nothing more', async () => {
    const told: number[] = [];
    const { worker, done, cancel } = slowWorkers().begun(told);
    cancel();
    worker.reply({ at: 'under way', done: 0.5, loss: 0.4 });
    worker.reply({ at: 'done', result });
    cancel();
    expect(await done).toEqual({ at: 'cancelled' });
    expect(told).toEqual([]);
    expect(worker.ended).toBeGreaterThan(0);
  });

  it('starts a worker of its own for each fit', async () => {
    const { begun, workers } = slowWorkers();
    begun().cancel();
    const second = begun();
    second.worker.reply({ at: 'done', result });
    expect(await second.done).toEqual({ at: 'done', result });
    expect(workers).toHaveLength(2);
  });

  it.each([
    ['fails', { reply: { at: 'failed', why: 'no room' } as const, reason: null }, 'no room'],
    ['cannot be loaded', { reply: null, reason: 'it could not be loaded' }, 'could not be loaded'],
  ])('says in a sentence that the worker %s', async (_, { reply, reason }, words) => {
    const { worker, done } = slowWorkers().begun();
    if (reply) worker.reply(reply);
    else worker.fail(reason);
    const end: FitEnd = await done;
    if (end.at !== 'failed') throw new Error(end.at);
    expect(end.say).toMatch(/^The .*\.?$/);
    expect(end.say).toContain(words);
    expect(worker.ended).toBe(1);
  });

  it('sends nothing that cannot be cloned', () => {
    const reply: WeightsReply = { at: 'done', result };
    expect(structuredClone(reply)).toEqual(reply);
  });
});
