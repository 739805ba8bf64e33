/**
 * Charts on the device: one document that holds them all by their ids. Whether a tab may go on with
 * a chart is decided inside the transaction that writes, by what is on the disk then.
 */

import {
  type ChartDocument,
  canonical,
  digestOf,
  lastRevision,
  parseChart,
} from '../charts/index.ts';
import type { EventDraft, LogEvent } from '../scheduler/index.ts';
import { appendIn } from './append.ts';
import { type Database, get, promisifyRequest, update } from './database.ts';
import { DRAFTS } from './drafts.ts';
import { recordOf } from './record.ts';

export const CHARTS = 'charts';

/**
 * Keeps these charts if there are none. Where there are, nothing is written: the disk may be full.
 * @returns were there none
 */
export async function firstCharts(
  db: Database,
  charts: readonly ChartDocument[],
): Promise<boolean> {
  if (holdsCharts(await get<unknown>(CHARTS, db.documents))) return false;
  const byId = Object.fromEntries(charts.map((chart) => [chart.id, chart]));
  // Looked at again in the transaction that writes: another tab may have been first.
  await update<unknown>(CHARTS, (old) => (holdsCharts(old) ? old : byId), db.documents);
  return true;
}

function holdsCharts(stored: unknown): boolean {
  return Object.keys(recordOf(stored)).length > 0;
}

/**
 * Writes a chart, new or gone on with, and events beside it: all or nothing.
 * @param base digest of the last revision that the caller builds on; null for a chart that is new
 * @returns the events as written; null, with nothing written, if that is not what is on the disk
 */
export function keepChart(
  db: Database,
  chart: ChartDocument,
  base: string | null,
  drafts: readonly EventDraft[],
  newDeviceId: () => string,
): Promise<readonly LogEvent[] | null> {
  return db.events('readwrite', async (events) => {
    const documents = db.documentsOf(events);
    const charts = recordOf(await promisifyRequest(documents.get(CHARTS)));
    const stored = Object.hasOwn(charts, chart.id) ? parseChart(charts[chart.id]) : undefined;
    if (base !== baseOf(stored)) return null;
    // What could not be read back must not look saved.
    if (!parseChart(chart)) throw new RangeError(`chart ${chart.id} is out of range`);
    documents.put({ ...charts, [chart.id]: chart }, CHARTS);
    return writeAll(db, events, drafts, newDeviceId);
  });
}

/** Events that belong together: all of them or none. */
export function appendAll(
  db: Database,
  drafts: readonly EventDraft[],
  newDeviceId: () => string,
): Promise<readonly LogEvent[]> {
  return db.events('readwrite', (events) => writeAll(db, events, drafts, newDeviceId));
}

async function writeAll(
  db: Database,
  events: IDBObjectStore,
  drafts: readonly EventDraft[],
  newDeviceId: () => string,
): Promise<readonly LogEvent[]> {
  const written: LogEvent[] = [];
  for (const draft of drafts) written.push(await appendIn(db, events, draft, newDeviceId));
  return written;
}

/** A chart that cannot be read is nothing to build on: it is left as it is. */
function baseOf(stored: ChartDocument | null | undefined): string | null {
  if (stored === undefined) return null;
  return stored === null ? 'unreadable' : digestOf(lastRevision(stored));
}

/** With its unsaved changes. False, with nothing removed, if it is the only one. */
export async function removeChart(db: Database, id: string): Promise<boolean> {
  return db.documents('readwrite', async (documents) => {
    const charts = Object.entries(recordOf(await promisifyRequest(documents.get(CHARTS))));
    const others = charts.filter(([key]) => key !== id);
    if (others.length === 0) return false;
    const drafts = Object.entries(recordOf(await promisifyRequest(documents.get(DRAFTS))));
    documents.put(Object.fromEntries(drafts.filter(([key]) => key !== id)), DRAFTS);
    await promisifyRequest(documents.put(Object.fromEntries(others), CHARTS));
    return true;
  });
}

/** A chart comes in if there is none of its id, or if it goes on where the one that is here ends. */
export function continues(theirs: ChartDocument, stored: unknown): boolean {
  if (stored === undefined) return true;
  const mine = parseChart(stored);
  if (!mine || theirs.revisions.length <= mine.revisions.length) return false;
  const shared = theirs.revisions.slice(0, mine.revisions.length);
  return canonical(shared) === canonical(mine.revisions);
}
