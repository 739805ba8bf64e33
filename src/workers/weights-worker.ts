/** Reads the whole log, fits weights to it, and reports the progress. */

import { eachStep, gatherTraining, memoryModel, personalWeights } from '../scheduler/index.ts';
import type { FitProgress, FitRequest } from './fit-weights.ts';
import { serve } from './serve.ts';
import { wholeLog } from './whole-log.ts';

/** The time between two reports, in milliseconds. It looks smooth and costs almost no work. */
const BETWEEN = 100;

serve(async ({ store, weights }: FitRequest, report: (progress: FitProgress) => void) => {
  const training = gatherTraining();
  eachStep(await wholeLog(store), training.add);
  return personalWeights(training.sequences(), memoryModel(weights), seldom(report));
});

function seldom(report: (progress: FitProgress) => void): (done: number) => void {
  let last = Number.NEGATIVE_INFINITY;
  return (done) => {
    const now = performance.now();
    if (now - last < BETWEEN) return;
    last = now;
    report(done);
  };
}
