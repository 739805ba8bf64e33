export type { Port, Reply, Sent } from './client.ts';
export { createHistorian, type Historian, type History, historyOf } from './history.ts';
export type { Fitter, Planner, Solver } from './jobs.ts';
export { type Answered, type LatestOnly, latestOnly } from './latest-only.ts';
export { createSyncer, type SyncAnswer, type SyncAsk, type Syncer } from './syncer.ts';
export {
  createWeightsFitter,
  type FitEnd,
  type Fitting,
  type WeightsFitter,
} from './weights-fitter.ts';
