/** Goes through the whole log, which it reads by itself: one message in, one message out. */

import { type HistoryReply, type HistoryRequest, historyOf } from './history.ts';
import { wholeLog } from './whole-log.ts';

declare const self: DedicatedWorkerGlobalScope;

self.addEventListener('message', ({ data }: MessageEvent<HistoryRequest>) => {
  void answer(data).then((reply) => self.postMessage(reply));
});

async function answer({ id, store, today }: HistoryRequest): Promise<HistoryReply> {
  try {
    return { id, history: historyOf(await wholeLog(store), today) };
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) };
  }
}
