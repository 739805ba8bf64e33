export {
  createSolver,
  type Solved,
  type SolveReply,
  type SolveRequest,
  type Solver,
  type WorkerPort,
} from './solver.ts';
