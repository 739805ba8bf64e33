/**
 * The charts on the device. One document contains them all, by id. The transaction that writes a chart
 * also checks what is on the disk, to decide whether this tab may continue that chart.
 */

import {
  type ChartDocument,
  canonical,
  digestOf,
  lastRevision,
  parseChart,
} from '../charts/index.ts';
import type { EventDraft, LogEvent } from '../scheduler/index.ts';
import { appendAllIn } from './append.ts';
import { type Database, get, promisifyRequest, update } from './database.ts';
import { DRAFTS } from './drafts.ts';
import { recordOf } from './record.ts';

export const CHARTS = 'charts';

export interface ChartStore {
  /** Stores these charts if there are none, and returns whether there were none. */
  readonly firstCharts: (charts: readonly ChartDocument[]) => Promise<boolean>;
  /**
   * Writes a new or continued chart and appends events, all or nothing. `base` is the digest of the
   * last revision that the caller builds on, or null for a new chart. Returns null and writes nothing
   * if the chart on the disk does not end with that revision.
   */
  readonly keepChart: (
    chart: ChartDocument,
    base: string | null,
    drafts: readonly EventDraft[],
  ) => Promise<readonly LogEvent[] | null>;
  /**
   * Removes a chart and its unsaved changes. Returns false and removes nothing if it is the only
   * chart.
   */
  readonly removeChart: (id: string) => Promise<boolean>;
}

export function chartStore(db: Database, newDeviceId: () => string): ChartStore {
  return {
    firstCharts: (charts) => firstCharts(db, charts),
    keepChart: (chart, base, drafts) =>
      db.events('readwrite', async (events) => {
        if (!(await putChart(db.documentsOf(events), chart, base))) return null;
        return appendAllIn(db, events, drafts, newDeviceId);
      }),
    removeChart: (id) => db.documents('readwrite', (documents) => removeChart(documents, id)),
  };
}

async function firstCharts(db: Database, charts: readonly ChartDocument[]): Promise<boolean> {
  // This writes only if it must, because the disk may be full.
  if (hasCharts(await get<unknown>(CHARTS, db.documents))) return false;
  const byId = Object.fromEntries(charts.map((chart) => [chart.id, chart]));
  // The transaction that writes checks again, because another tab may have been first.
  await update<unknown>(CHARTS, (old) => (hasCharts(old) ? old : byId), db.documents);
  return true;
}

function hasCharts(stored: unknown): boolean {
  return Object.keys(recordOf(stored)).length > 0;
}

/** Returns false and writes nothing if the chart on the disk does not end with revision `base`. */
async function putChart(
  documents: IDBObjectStore,
  chart: ChartDocument,
  base: string | null,
): Promise<boolean> {
  const charts = recordOf(await promisifyRequest(documents.get(CHARTS)));
  const stored = Object.hasOwn(charts, chart.id) ? parseChart(charts[chart.id]) : undefined;
  if (base !== baseOf(stored)) return false;
  // A chart that cannot be read back must not look saved.
  if (!parseChart(chart)) throw new RangeError(`chart ${chart.id} is out of range`);
  documents.put({ ...charts, [chart.id]: chart }, CHARTS);
  return true;
}

/**
 * Returns the digest of the stored chart's last revision, or null if no chart is stored. Nobody can
 * build on a stored chart that cannot be read, so that chart stays as it is.
 */
function baseOf(stored: ChartDocument | null | undefined): string | null {
  if (stored === undefined) return null;
  return stored === null ? 'unreadable' : digestOf(lastRevision(stored));
}

async function removeChart(documents: IDBObjectStore, id: string): Promise<boolean> {
  const charts = Object.entries(recordOf(await promisifyRequest(documents.get(CHARTS))));
  const others = charts.filter(([key]) => key !== id);
  if (others.length === 0) return false;
  const drafts = Object.entries(recordOf(await promisifyRequest(documents.get(DRAFTS))));
  documents.put(Object.fromEntries(drafts.filter(([key]) => key !== id)), DRAFTS);
  await promisifyRequest(documents.put(Object.fromEntries(others), CHARTS));
  return true;
}

/**
 * Returns whether a chart has all revisions of the stored chart and at least one more. True if no chart
 * is stored.
 */
export function continues(theirs: ChartDocument, stored: unknown): boolean {
  if (stored === undefined) return true;
  const mine = parseChart(stored);
  if (!mine || theirs.revisions.length <= mine.revisions.length) return false;
  const shared = theirs.revisions.slice(0, mine.revisions.length);
  return canonical(shared) === canonical(mine.revisions);
}
