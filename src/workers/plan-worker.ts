/** Plans for the day that counts, beside the page: one message in, one message out. */

import { planFor } from '../scheduler/index.ts';
import type { PlannerReply, PlannerRequest } from './planner.ts';

declare const self: DedicatedWorkerGlobalScope;

self.addEventListener('message', ({ data }: MessageEvent<PlannerRequest>) => {
  self.postMessage(answer(data));
});

function answer({ id, ...request }: PlannerRequest): PlannerReply {
  try {
    return { id, reply: planFor(request) };
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
}
