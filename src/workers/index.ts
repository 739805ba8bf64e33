export {
  createFitter,
  type FitReply,
  type FitRequest,
  type Fitter,
  type FitterPort,
} from './fitter.ts';
export {
  createHistorian,
  type Historian,
  type History,
  type HistoryPort,
  type HistoryReply,
  historyOf,
} from './history.ts';
export type { Port, Reply } from './newest.ts';
export {
  createPlanner,
  type Planner,
  type PlannerPort,
  type PlannerReply,
  type PlannerRequest,
} from './planner.ts';
export {
  createSolver,
  type Solved,
  type SolveReply,
  type SolveRequest,
  type Solver,
  type WorkerPort,
} from './solver.ts';
export {
  createSyncer,
  type SyncAnswer,
  type SyncAsk,
  type Syncer,
  type SyncPort,
  type SyncReply,
  type SyncRequest,
} from './syncer.ts';
export {
  createWeightsFitter,
  type FitEnd,
  type Fitting,
  type WeightsFitter,
  type WeightsPort,
  type WeightsReply,
  type WeightsRequest,
} from './weights-fitter.ts';
