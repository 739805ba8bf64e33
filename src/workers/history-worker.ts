/** Reads the whole log and summarizes it. */

import { type HistoryRequest, historyOf } from './history.ts';
import { serve } from './serve.ts';
import { wholeLog } from './whole-log.ts';

serve(async ({ store, today }: HistoryRequest) => historyOf(await wholeLog(store), today));
