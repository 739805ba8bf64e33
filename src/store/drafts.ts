/** Unsaved changes of charts, by the chart's id, so that a reload loses none. */

import { type ChartDraft, canonical, parseChartDraft } from '../charts/index.ts';
import { type Database, get, update } from './database.ts';
import { recordOf } from './record.ts';

export const DRAFTS = 'chart drafts';

/** Null if there is none, or none that can be read. */
export async function loadDraft(db: Database, chart: string): Promise<ChartDraft | null> {
  const drafts = recordOf(await get<unknown>(DRAFTS, db.documents));
  return Object.hasOwn(drafts, chart) ? parseChartDraft(drafts[chart]) : null;
}

export function saveDraft(db: Database, chart: string, draft: ChartDraft): Promise<void> {
  return update<unknown>(DRAFTS, (old) => ({ ...recordOf(old), [chart]: draft }), db.documents);
}

/** Takes a draft away; not if another tab has written one of its own in its place. */
export function dropDraft(db: Database, chart: string, mine: ChartDraft): Promise<void> {
  return update<unknown>(
    DRAFTS,
    (old) => {
      const drafts = Object.entries(recordOf(old));
      const stays = ([key, draft]: [string, unknown]): boolean =>
        key !== chart || canonical(draft) !== canonical(mine);
      return Object.fromEntries(drafts.filter(stays));
    },
    db.documents,
  );
}
