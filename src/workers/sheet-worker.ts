/** Works sheets out beside the page: one message in, one message out. */

import { computeSheet } from '../charts/index.ts';
import type { SolveReply, SolveRequest } from './solver.ts';

declare const self: DedicatedWorkerGlobalScope;

self.addEventListener('message', ({ data }: MessageEvent<SolveRequest>) => {
  self.postMessage(answer(data));
});

function answer({ id, sheets }: SolveRequest): SolveReply {
  try {
    return { id, sheets: sheets.map(computeSheet) };
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
}
