/** Asks the planning worker for a plan: the newest request wins. */

import type { PlanReply, PlanRequest } from '../scheduler/index.ts';
import { type Ask, type Asked, askNewest, type Port, type Reply } from './newest.ts';

export type PlannerRequest = Asked<PlanRequest>;
export type PlannerReply = Reply<{ readonly reply: PlanReply }>;
export type PlannerPort = Port<PlanRequest, { readonly reply: PlanReply }>;

export interface Planner {
  /** Calls back once, unless a newer request takes this one's place before it is begun. */
  readonly ask: Ask<PlanRequest, { readonly reply: PlanReply }>;
}

export function createPlanner(port: PlannerPort): Planner {
  return { ask: askNewest(port) };
}
