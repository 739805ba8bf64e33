import { describe, expect, it } from 'vitest';
import type { PersonalWeights } from '../../src/scheduler/index.ts';
import type { FitEnd, FitProgress, FitRequest } from '../../src/workers/fit-weights.ts';
import { fitWeights } from '../../src/workers/index.ts';
import { slowWorkers } from './slow-worker.ts';

const result: PersonalWeights = { verdict: 'too little', answers: 12, needed: 388 };
const WEIGHTS = [0.2, 1.3];

function begin() {
  const slow = slowWorkers<FitRequest, PersonalWeights, FitProgress>();
  const weightsWorker = { start: slow.start, store: 'a store' };
  const beginFit = (progress: number[] = []) => {
    const fitting = fitWeights(weightsWorker, WEIGHTS, (done) => progress.push(done));
    const worker = slow.workers.at(-1);
    if (!worker) throw new Error('no worker was started');
    const id = worker.sent[0]?.id ?? 0;
    return { ...fitting, worker, id };
  };
  return { ...slow, beginFit };
}

describe('fitting weights', () => {
  it('gives back what the worker found, and ends the worker', async () => {
    const { worker, id, done } = begin().beginFit();
    expect(worker.sent.map(({ request }) => request)).toEqual([
      { store: 'a store', weights: WEIGHTS },
    ]);
    worker.reply({ id, answer: result });
    expect(await done).toEqual({ at: 'done', result });
    expect(worker.ended).toBe(1);
  });

  it('reports progress, never going back', () => {
    const progress: number[] = [];
    const { worker, id } = begin().beginFit(progress);
    for (const part of [0.1, 0.4, 0.3, 0.9]) worker.reply({ id, progress: part });
    expect(progress).toEqual([0.1, 0.4, 0.4, 0.9]);
  });

  it('is stopped by ending its worker, and says nothing more', async () => {
    const progress: number[] = [];
    const { worker, id, done, cancel } = begin().beginFit(progress);
    cancel();
    worker.reply({ id, progress: 0.5 });
    worker.reply({ id, answer: result });
    cancel();
    expect(await done).toEqual({ at: 'cancelled' });
    expect(progress).toEqual([]);
    expect(worker.ended).toBeGreaterThan(0);
  });

  it('starts a worker of its own for each fit', async () => {
    const { beginFit, workers } = begin();
    beginFit().cancel();
    const second = beginFit();
    second.worker.reply({ id: second.id, answer: result });
    expect(await second.done).toEqual({ at: 'done', result });
    expect(workers).toHaveLength(2);
  });

  it.each([
    ['fails', { failed: 'no room' }, 'no room'],
    ['cannot be loaded', null, 'could not be loaded'],
  ])('says in a sentence that the worker %s', async (_, reply, words) => {
    const { worker, id, done } = begin().beginFit();
    if (reply) worker.reply({ id, ...reply });
    else worker.fail('');
    const end: FitEnd = await done;
    if (end.at !== 'failed') throw new Error(end.at);
    expect(end.say).toMatch(/^The .*\.?$/);
    expect(end.say).toContain(words);
    expect(worker.ended).toBe(1);
  });

  it('sends nothing that cannot be cloned', () => {
    const reply = { id: 1, answer: result };
    expect(structuredClone(reply)).toEqual(reply);
  });
});
