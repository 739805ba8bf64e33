/** The part of odex 2.0.4 that the oracle uses; the package ships untyped-for-strict sources. */
export type Derivative = (x: number, y: number[]) => number[];
export class Solver {
  constructor(dimension: number);
  maxSteps: number;
  initialStepSize: number;
  absoluteTolerance: number;
  relativeTolerance: number;
  solve(f: Derivative, x: number, y: number[], xEnd: number): { y: number[]; outcome: number };
}
