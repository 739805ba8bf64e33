/** Works out what test shots tell of a table, beside the page: one message in, one message out. */

import { eveningOf } from '../shots/index.ts';
import type { FitReply, FitRequest } from './fitter.ts';

declare const self: DedicatedWorkerGlobalScope;

self.addEventListener('message', ({ data }: MessageEvent<FitRequest>) => {
  self.postMessage(answer(data));
});

function answer({ id, ...request }: FitRequest): FitReply {
  try {
    return { id, evening: eveningOf(request) };
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
}
