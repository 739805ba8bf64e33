/** Sums up the whole log, which it reads itself. */

import { type HistoryRequest, historyOf } from './history.ts';
import { serve } from './serve.ts';
import { wholeLog } from './whole-log.ts';

serve(async ({ store, today }: HistoryRequest) => historyOf(await wholeLog(store), today));
