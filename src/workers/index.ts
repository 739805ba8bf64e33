export { type Fitting, fitWeights, type WeightsWorker } from './fit-weights.ts';
export { createHistorian, type Historian, type History } from './history.ts';
export type { Fitter, Forecaster, Solver } from './jobs.ts';
export { type Answered, latestOnly } from './latest-only.ts';
export { createSyncer, type SyncAnswer, type SyncAsk, type Syncer } from './syncer.ts';
