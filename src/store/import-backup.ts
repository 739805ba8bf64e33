/** Restores a backup: merges it with the data on the device in one transaction, all or nothing. */

import { type ChartDocument, canonical } from '../charts/index.ts';
import { type LogEvent, parseEvent } from '../scheduler/index.ts';
import { DEVICE, type Device, deviceOf } from './append.ts';
import { type Backup, type BackupRefused, parseBackup, refuse } from './backup.ts';
import { CHARTS, continues } from './charts.ts';
import { type Database, promisifyRequest } from './database.ts';
import { SETTINGS } from './documents.ts';
import { type Keyed, readRecords, recordsOf } from './read-log.ts';
import { recordOf } from './record.ts';
import { CHUNK } from './snapshot.ts';

/** Reports how many of the backup's events and charts were new on this device. */
export type Imported =
  | { readonly ok: true; readonly added: number; readonly charts: number }
  | BackupRefused;

export async function importBackup(db: Database, text: string): Promise<Imported> {
  const parsed = parseBackup(text);
  if (!parsed.ok) return parsed;
  const merged = await mergeBackup(db, parsed.backup, continuing);
  return merged.ok ? { ok: true, added: merged.added, charts: merged.charts.length } : merged;
}

/** Returns the charts to write, given the stored charts (by id) and the backup's charts. */
export type MergeCharts = (
  mine: Readonly<Record<string, unknown>>,
  theirs: readonly ChartDocument[],
) => readonly ChartDocument[];

export type Merged =
  | {
      readonly ok: true;
      /** How many events were new on this device. */
      readonly added: number;
      /** The charts that were new on this device or have changed. */
      readonly charts: readonly ChartDocument[];
    }
  | BackupRefused;

export async function mergeBackup(
  db: Database,
  backup: Backup,
  mergeCharts: MergeCharts,
): Promise<Merged> {
  try {
    return await db.log('readwrite', async (events) => {
      const present = await readPresent(db, events, backup);
      const added = addMissing(db, events, backup, present);
      const isFresh = !present.hasAnswers();
      const charts = await mergeDocuments(db.documentsOf(events), backup, isFresh, mergeCharts);
      return { ok: true, added, charts };
    });
  } catch (error) {
    if (!(error instanceof Contradiction)) throw error;
    return refuse('contradicts', `answer ${error.message}`);
  }
}

/** The device has this event with different contents. The message is the event's id. */
class Contradiction extends Error {}

interface Present {
  readonly has: (key: string) => boolean;
  /** Returns whether the device has any event that tells what the player knows. */
  readonly hasAnswers: () => boolean;
}

async function readPresent(db: Database, events: IDBObjectStore, backup: Backup): Promise<Present> {
  const present = comparing(backup);
  for (const keyed of await readRecords(events)) present.addRecent(keyed);
  const chunks = db.sealedOf(events);
  for (const key of await promisifyRequest(chunks.getAllKeys())) {
    const chunk = await promisifyRequest<unknown>(chunks.get(key));
    for (const keyed of recordsOf(chunk, key)) present.addSealed(keyed);
  }
  return present;
}

/** Returns a collector that compares the records on the device with a backup, one by one. */
function comparing(backup: Backup) {
  const theirs = new Map(backup.events.map((event) => [event.id, event]));
  const keys = new Set<string>();
  let hasAnswers = false;
  const add = ([key, record]: Keyed, isReadable: boolean): void => {
    const their = theirs.get(key);
    if (their && !same(their, record)) {
      if (isReadable) throw new Contradiction(key);
      return;
    }
    keys.add(key);
    hasAnswers ||= ANSWERS.includes(recordOf(record).type);
  };
  return {
    has: (key: string): boolean => keys.has(key),
    hasAnswers: (): boolean => hasAnswers,
    addRecent: (keyed: Keyed): void => add(keyed, true),
    /**
     * Adds a record from a chunk. If that record is damaged, its key stays free, so the backup's
     * intact record is added.
     */
    addSealed: (keyed: Keyed): void => add(keyed, theirs.has(keyed[0]) && parseEvent(keyed[1]).ok),
  };
}

/** The types of events that tell what the player knows. A chart's revision or a test shot does not. */
const ANSWERS: readonly unknown[] = ['answered', 'proved', 'met', 'drilled', 'rehearsed'];

/** @returns the number of events it added */
function addMissing(
  db: Database,
  events: IDBObjectStore,
  backup: Backup,
  present: Present,
): number {
  const missing = backup.events.filter((event) => !present.has(event.id));
  addEvents(events, db.sealedOf(events), missing);
  const theirs = new Set(backup.events.map((event) => event.id));
  for (const { key, record } of backup.unread)
    if (!present.has(key) && !theirs.has(key)) events.add(record, key);
  return missing.length;
}

/**
 * Adds events as recent events, or as chunks if there are many. The keys of these chunks come after
 * the snapshot's last chunk, so pages read their events as recent ones.
 */
function addEvents(
  events: IDBObjectStore,
  chunks: IDBObjectStore,
  missing: readonly LogEvent[],
): void {
  if (missing.length <= CHUNK) {
    for (const event of missing) events.add(event, event.id);
    return;
  }
  for (let at = 0; at < missing.length; at += CHUNK) chunks.add(missing.slice(at, at + CHUNK));
}

/** Returns the charts that are new on this device or continue the stored chart. */
const continuing: MergeCharts = (mine, theirs) =>
  theirs.filter((chart) =>
    continues(chart, Object.hasOwn(mine, chart.id) ? mine[chart.id] : undefined),
  );

/** @returns the charts that it wrote */
async function mergeDocuments(
  documents: IDBObjectStore,
  backup: Backup,
  isFresh: boolean,
  mergeCharts: MergeCharts,
): Promise<readonly ChartDocument[]> {
  const mine = recordOf(await promisifyRequest(documents.get(CHARTS)));
  const theirs = mergeCharts(mine, backup.charts);
  documents.put(
    { ...mine, ...Object.fromEntries(theirs.map((chart) => [chart.id, chart])) },
    CHARTS,
  );
  // Settings belong to the device. Only a device without answers takes the backup's settings.
  if (isFresh) documents.put(backup.settings, SETTINGS);
  const device = deviceOf(await promisifyRequest(documents.get(DEVICE)));
  if (device) {
    const next = nextAfter(backup, device);
    documents.put({ id: device.id, next } satisfies Device, DEVICE);
  }
  return theirs;
}

/**
 * Returns the device's next sequence number. It is greater than that of every event that the backup has
 * from this device, even of the unread ones.
 */
function nextAfter({ events, unread }: Backup, { id, next }: Device): number {
  const own = events.filter((event) => event.device === id).map(({ seq }) => seq);
  const others = unread.flatMap(({ key }) => {
    const [device, seq = ''] = key.split(':');
    return device === id && /^\d{1,15}$/.test(seq) ? [Number(seq)] : [];
  });
  return [...own, ...others].reduce((most, seq) => Math.max(most, seq + 1), next);
}

/** Compares the plain text first, because the canonical forms of 100,000 events take seconds. */
function same(their: LogEvent, record: unknown): boolean {
  if (JSON.stringify(their) === JSON.stringify(record)) return true;
  const mine = parseEvent(record);
  return mine.ok && canonical(their) === canonical(mine.event);
}
