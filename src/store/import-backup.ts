/** Restoring a backup: its union with what is on the device, in one transaction, all or nothing. */

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

/** How many answers and charts of the backup were new here. */
export type Imported =
  | { readonly ok: true; readonly added: number; readonly charts: number }
  | BackupRefused;

export async function importBackup(db: Database, text: string): Promise<Imported> {
  const parsed = parseBackup(text);
  if (!parsed.ok) return parsed;
  const merged = await mergeBackup(db, parsed.backup, continuing);
  return merged.ok ? { ok: true, added: merged.added, charts: merged.charts.length } : merged;
}

/** Decides which charts to write, given those stored by their ids, and those of the backup. */
export type MergeCharts = (
  mine: Readonly<Record<string, unknown>>,
  theirs: readonly ChartDocument[],
) => readonly ChartDocument[];

export type Merged =
  | {
      readonly ok: true;
      /** Number of events that were new here. */
      readonly added: number;
      /** Charts that were new here or changed. */
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

/** Its message is the id of an event that is here with other contents. */
class Contradiction extends Error {}

interface Present {
  readonly has: (key: string) => boolean;
  /** Is anything here that says what the player knows. */
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

/** Compares what is on the device with a backup, record by record. */
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
    /** A damaged record in a chunk blocks no key, so the backup's sound one is added beside it. */
    addSealed: (keyed: Keyed): void => add(keyed, theirs.has(keyed[0]) && parseEvent(keyed[1]).ok),
  };
}

/** Events that say what the player knows, unlike a chart's revision or a test shot. */
const ANSWERS: readonly unknown[] = ['answered', 'proved', 'met', 'drilled', 'rehearsed'];

/** @returns the number of events added */
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

/** Many events become chunks at once. They lie after the snapshot, so pages read them as recent. */
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

/** Charts that are new here, or continue the stored one. */
const continuing: MergeCharts = (mine, theirs) =>
  theirs.filter((chart) =>
    continues(chart, Object.hasOwn(mine, chart.id) ? mine[chart.id] : undefined),
  );

/** @returns the charts it wrote */
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
  // Settings belong to the device; only a device without an answer gets those of the backup.
  if (isFresh) documents.put(backup.settings, SETTINGS);
  const device = deviceOf(await promisifyRequest(documents.get(DEVICE)));
  if (device) {
    const next = nextAfter(backup, device);
    documents.put({ id: device.id, next } satisfies Device, DEVICE);
  }
  return theirs;
}

/** Beyond all events that the backup has of this device, including those it cannot read. */
function nextAfter({ events, unread }: Backup, { id, next }: Device): number {
  const own = events.filter((event) => event.device === id).map(({ seq }) => seq);
  const others = unread.flatMap(({ key }) => {
    const [device, seq = ''] = key.split(':');
    return device === id && /^\d{1,15}$/.test(seq) ? [Number(seq)] : [];
  });
  return [...own, ...others].reduce((most, seq) => Math.max(most, seq + 1), next);
}

/** Compares the plain text first: canonical forms of 100,000 events take seconds. */
function same(their: LogEvent, record: unknown): boolean {
  if (JSON.stringify(their) === JSON.stringify(record)) return true;
  const mine = parseEvent(record);
  return mine.ok && canonical(their) === canonical(mine.event);
}
