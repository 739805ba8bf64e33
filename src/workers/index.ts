export {
  createFitter,
  type FitReply,
  type FitRequest,
  type Fitter,
  type FitterPort,
} from './fitter.ts';
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
  createWeightsFitter,
  type FitEnd,
  type Fitting,
  type WeightsFitter,
  type WeightsPort,
  type WeightsReply,
  type WeightsRequest,
} from './weights-fitter.ts';
