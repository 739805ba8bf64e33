/** Fits weights to the whole log, which it reads by itself: one message in, many out. */

import {
  eachStep,
  gatherTraining,
  type LogEvent,
  memoryModel,
  personalWeights,
} from '../scheduler/index.ts';
import { createStore } from '../store/index.ts';
import type { WeightsReply, WeightsRequest } from './weights-fitter.ts';

declare const self: DedicatedWorkerGlobalScope;

/** Milliseconds between two reports: smooth to the eye, and next to no work. */
const BETWEEN = 100;

self.addEventListener('message', ({ data }: MessageEvent<WeightsRequest>) => {
  void answer(data).then((reply) => self.postMessage(reply));
});

async function answer({ store, weights }: WeightsRequest): Promise<WeightsReply> {
  try {
    const gathering = gatherTraining();
    eachStep(await wholeLog(store), gathering.add);
    const result = personalWeights(gathering.sequences(), memoryModel(weights), report());
    return { at: 'done', result };
  } catch (error) {
    return { at: 'failed', why: error instanceof Error ? error.message : String(error) };
  }
}

/** Every event that is kept on this device. Nothing is written here, so no name is given to it. */
async function wholeLog(name: string): Promise<readonly LogEvent[]> {
  const newDeviceId = (): never => {
    throw new Error('the weights worker writes nothing');
  };
  const store = createStore({ name, newDeviceId });
  try {
    return await store.loadAll();
  } finally {
    await store.close();
  }
}

function report(): (done: number, loss: number) => void {
  let last = Number.NEGATIVE_INFINITY;
  return (done, loss) => {
    const now = performance.now();
    if (now - last < BETWEEN) return;
    last = now;
    self.postMessage({ at: 'under way', done, loss } satisfies WeightsReply);
  };
}
