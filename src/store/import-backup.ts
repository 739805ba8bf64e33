/** Restoring a backup: the union with what is there, in one transaction, all of it or nothing. */

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

/** How many answers and charts were missing here and came in. */
export type Imported =
  | { readonly ok: true; readonly added: number; readonly charts: number }
  | BackupRefused;

export async function importBackup(db: Database, text: string): Promise<Imported> {
  const parsed = parseBackup(text);
  if (!parsed.ok) return parsed;
  const taken = await takeIn(db, parsed.backup, goingOn);
  return taken.ok ? { ok: true, added: taken.added, charts: taken.charts.length } : taken;
}

/** Charts that come in, given those stored, by their ids. */
export type ChartsIn = (
  mine: Readonly<Record<string, unknown>>,
  theirs: readonly ChartDocument[],
) => readonly ChartDocument[];

/** Events that were missing here, and charts that were new or changed. */
export type TakenIn =
  | { readonly ok: true; readonly added: number; readonly charts: readonly ChartDocument[] }
  | BackupRefused;

/** Takes a backup in, by the way in which its charts meet those that are here. */
export async function takeIn(db: Database, backup: Backup, chartsIn: ChartsIn): Promise<TakenIn> {
  const present = presentOf(backup);
  try {
    const added = await db.log('readwrite', async (events) => {
      const chunks = db.sealedOf(events);
      for (const keyed of await readRecords(events)) present.takeRecent(keyed);
      for (const key of await promisifyRequest(chunks.getAllKeys())) {
        const chunk = await promisifyRequest<unknown>(chunks.get(key));
        for (const keyed of recordsOf(chunk, key)) present.takeSealed(keyed);
      }
      const missing = backup.events.filter((event) => !present.has(event.id));
      addAll(events, chunks, missing);
      const theirs = new Set(backup.events.map((event) => event.id));
      for (const { key, record } of backup.unread) {
        if (!present.has(key) && !theirs.has(key)) events.add(record, key);
      }
      const fresh = !present.answers();
      const charts = await mergeDocuments(db.documentsOf(events), backup, fresh, chartsIn);
      return { added: missing.length, charts };
    });
    return { ok: true, ...added };
  } catch (error) {
    if (!(error instanceof Contradiction)) throw error;
    return refuse('contradicts', `answer ${error.message}`);
  }
}

/** The id of an event that is here, and otherwise. */
class Contradiction extends Error {}

/** What is on the device, as far as a backup has to know: taken in record by record. */
function presentOf(backup: Backup) {
  const theirs = new Map(backup.events.map((event) => [event.id, event]));
  const keys = new Set<string>();
  let answers = false;
  const take = ([key, record]: Keyed, readable: boolean): void => {
    const their = theirs.get(key);
    if (their && !same(their, record)) {
      if (readable) throw new Contradiction(key);
      return;
    }
    keys.add(key);
    answers ||= ANSWERS.includes(recordOf(record).type);
  };
  return {
    has: (key: string): boolean => keys.has(key),
    answers: (): boolean => answers,
    takeRecent: (keyed: Keyed): void => take(keyed, true),
    /** A damaged one in a chunk has no key, so what the backup has of it comes in beside it. */
    takeSealed: (keyed: Keyed): void =>
      take(keyed, theirs.has(keyed[0]) && parseEvent(keyed[1]).ok),
  };
}

/** Of types that say what the player knows; a chart taken in, or a test shot, says nothing of it. */
const ANSWERS: readonly unknown[] = ['answered', 'proved', 'met', 'drilled', 'rehearsed'];

/** Many go into chunks at once, after the snapshot: so they are read as recent ones are. */
function addAll(
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

/** Those that are new here, or go on where the stored one ends. */
const goingOn: ChartsIn = (mine, theirs) =>
  theirs.filter((chart) =>
    continues(chart, Object.hasOwn(mine, chart.id) ? mine[chart.id] : undefined),
  );

/** Returns the charts that came in. */
async function mergeDocuments(
  documents: IDBObjectStore,
  backup: Backup,
  fresh: boolean,
  chartsIn: ChartsIn,
): Promise<readonly ChartDocument[]> {
  const mine = recordOf(await promisifyRequest(documents.get(CHARTS)));
  const theirs = chartsIn(mine, backup.charts);
  documents.put(
    { ...mine, ...Object.fromEntries(theirs.map((chart) => [chart.id, chart])) },
    CHARTS,
  );
  // Settings belong to the device; a device without an answer takes those of the backup.
  if (fresh) documents.put(backup.settings, SETTINGS);
  const device = deviceOf(await promisifyRequest(documents.get(DEVICE)));
  if (device) {
    const next = nextAfter(backup, device);
    documents.put({ id: device.id, next } satisfies Device, DEVICE);
  }
  return theirs;
}

/** Past all that the backup has of this device, what cannot be read of it included. */
function nextAfter({ events, unread }: Backup, { id, next }: Device): number {
  const own = events.filter((event) => event.device === id).map(({ seq }) => seq);
  const others = unread.flatMap(({ key }) => {
    const [device, seq = ''] = key.split(':');
    return device === id && /^\d{1,15}$/.test(seq) ? [Number(seq)] : [];
  });
  return [...own, ...others].reduce((most, seq) => Math.max(most, seq + 1), next);
}

/** As written out first: working out the canonical form of a million takes a minute. */
function same(their: LogEvent, record: unknown): boolean {
  if (JSON.stringify(their) === JSON.stringify(record)) return true;
  const mine = parseEvent(record);
  return mine.ok && canonical(their) === canonical(mine.event);
}
