/** Stores unsaved changes to charts, by chart id, so that they survive a reload. */

import { type ChartDraft, canonical, parseChartDraft } from '../charts/index.ts';
import { type Database, get, update } from './database.ts';
import { recordOf } from './record.ts';

export const DRAFTS = 'chart drafts';

export interface DraftStore {
  /** Returns the unsaved changes to a chart; null if there are none or they cannot be read. */
  readonly loadDraft: (chart: string) => Promise<ChartDraft | null>;
  readonly saveDraft: (chart: string, draft: ChartDraft) => Promise<void>;
  /** Removes unsaved changes, unless another tab has replaced them with different ones. */
  readonly dropDraft: (chart: string, mine: ChartDraft) => Promise<void>;
}

export function draftStore({ documents }: Database): DraftStore {
  return {
    loadDraft: async (chart) => {
      const drafts = recordOf(await get<unknown>(DRAFTS, documents));
      return Object.hasOwn(drafts, chart) ? parseChartDraft(drafts[chart]) : null;
    },
    saveDraft: (chart, draft) =>
      update<unknown>(DRAFTS, (old) => ({ ...recordOf(old), [chart]: draft }), documents),
    dropDraft: (chart, mine) =>
      update<unknown>(DRAFTS, (old) => without(recordOf(old), chart, mine), documents),
  };
}

function without(drafts: Readonly<Record<string, unknown>>, chart: string, mine: ChartDraft) {
  const stays = ([key, draft]: [string, unknown]): boolean =>
    key !== chart || canonical(draft) !== canonical(mine);
  return Object.fromEntries(Object.entries(drafts).filter(stays));
}
