/** The workers from which the page needs only the latest answer. */

import type { Sheet, SheetRequest } from '../charts/index.ts';
import type { PlanReply, PlanRequest } from '../scheduler/index.ts';
import type { Evening, EveningRequest } from '../shots/index.ts';
import type { LatestOnly } from './latest-only.ts';

/** Computes complete patterns (sheet-worker.ts). */
export type Solver = LatestOnly<readonly SheetRequest[], readonly Sheet[]>;
/** Works out what test shots tell about a table (fit-worker.ts). */
export type Fitter = LatestOnly<EveningRequest, Evening>;
/** Plans practice until the day that counts (plan-worker.ts). */
export type Planner = LatestOnly<PlanRequest, PlanReply>;
