/** Unsaved changes of charts, by the chart's id, so that a reload loses none. */

import { type ChartDraft, parseChartDraft } from '../charts/index.ts';
import { type Database, get, update } from './database.ts';
import { recordOf } from './record.ts';

export const DRAFTS = 'chart drafts';

/** Null if there is none, or none that can be read. */
export async function loadDraft(db: Database, chart: string): Promise<ChartDraft | null> {
  const drafts = recordOf(await get<unknown>(DRAFTS, db.documents));
  return Object.hasOwn(drafts, chart) ? parseChartDraft(drafts[chart]) : null;
}

/** @param draft null takes it away */
export function saveDraft(db: Database, chart: string, draft: ChartDraft | null): Promise<void> {
  return update<unknown>(
    DRAFTS,
    (old) => {
      const others = Object.entries(recordOf(old)).filter(([key]) => key !== chart);
      return Object.fromEntries(draft ? [...others, [chart, draft]] : others);
    },
    db.documents,
  );
}
