/** What the app keeps on the device: the log, charts and settings. An adapter around IndexedDB. */

import { type ChartDocument, parseChart } from '../charts/index.ts';
import { type EventDraft, type LogEvent, parseEvent } from '../scheduler/index.ts';
import { type BackupRefused, formatBackup, parseBackup, refuse } from './backup.ts';
import { type Database, get, openDatabase, promisifyRequest, update, values } from './database.ts';
import { DEFAULT_SETTINGS, parseSettings, type Settings } from './settings.ts';

const SETTINGS = 'settings';
const CHARTS = 'charts';
const DEVICE = 'device';

/** This browser's name in the log, and the sequence number of its next event. */
interface Device {
  readonly id: string;
  readonly next: number;
}

export interface Contents {
  readonly events: readonly LogEvent[];
  /** Stored records that this version cannot read. They are left where they are. */
  readonly unreadable: number;
  readonly charts: readonly ChartDocument[];
  readonly settings: Settings;
}

export type Imported = { readonly ok: true; readonly added: number } | BackupRefused;

export interface Store {
  readonly load: () => Promise<Contents>;
  /** Gives the event its place in the log and writes it; resolves when it is on disk. */
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  readonly saveSettings: (change: Partial<Settings>) => Promise<Settings>;
  /** Keeps a chart, replacing one of the same id. */
  readonly saveChart: (chart: ChartDocument) => Promise<void>;
  readonly exportBackup: (made: string) => Promise<string>;
  readonly importBackup: (text: string) => Promise<Imported>;
  readonly close: () => Promise<void>;
}

export interface StoreOptions {
  readonly name: string;
  /** A fresh random name for this browser: 1–32 of a–z and 0–9. */
  readonly newDeviceId: () => string;
}

export function createStore(options: StoreOptions): Store {
  const db = openDatabase(options.name);
  return {
    load: () => load(db),
    append: (draft) => append(db, draft, options.newDeviceId),
    saveSettings: async (change) => {
      let saved: Settings = DEFAULT_SETTINGS;
      await update(
        SETTINGS,
        (old) => {
          saved = parseSettings({ ...parseSettings(old), ...change });
          return saved;
        },
        db.documents,
      );
      return saved;
    },
    saveChart: (chart) =>
      update<unknown>(CHARTS, (old) => ({ ...recordOf(old), [chart.id]: chart }), db.documents),
    exportBackup: async (made) => {
      const { events, charts, settings } = await load(db);
      return formatBackup({ events, charts, settings }, made);
    },
    importBackup: (text) => importBackup(db, text),
    close: db.close,
  };
}

async function load(db: Database): Promise<Contents> {
  const stored = await values<unknown>(db.events);
  const events: LogEvent[] = [];
  for (const raw of stored) {
    const parsed = parseEvent(raw);
    if (parsed.ok) events.push(parsed.event);
  }
  const charts = Object.values(recordOf(await get<unknown>(CHARTS, db.documents)))
    .map(parseChart)
    .filter((chart) => chart !== null);
  const settings = parseSettings(await get<unknown>(SETTINGS, db.documents));
  return { events, unreadable: stored.length - events.length, charts, settings };
}

function append(db: Database, draft: EventDraft, newDeviceId: () => string): Promise<LogEvent> {
  return db.events('readwrite', async (events) => {
    const documents = db.documentsOf(events);
    const stored: unknown = await promisifyRequest(documents.get(DEVICE));
    const device = deviceOf(stored) ?? { id: newDeviceId(), next: 0 };
    const { id, next } = device;
    const event = { ...draft, version: 1, id: `${id}:${next}`, device: id, seq: next } as LogEvent;
    documents.put({ id, next: next + 1 } satisfies Device, DEVICE);
    // add, not put: an event that is there is never written over.
    await promisifyRequest(events.add(event, event.id));
    return event;
  });
}

/** Union with what is there, in one transaction: all of it or nothing. */
async function importBackup(db: Database, text: string): Promise<Imported> {
  const parsed = parseBackup(text);
  if (!parsed.ok) return parsed;
  const { backup } = parsed;
  const contradiction = { event: '' };
  try {
    const added = await db.events('readwrite', async (events) => {
      const present = new Map<unknown, unknown>();
      const keys = await promisifyRequest(events.getAllKeys());
      const stored: unknown[] = await promisifyRequest(events.getAll());
      keys.forEach((key, n) => {
        present.set(key, stored[n]);
      });
      const missing = backup.events.filter((event) => !present.has(event.id));
      const twin = backup.events.find(
        (event) => present.has(event.id) && !same(event, present.get(event.id)),
      );
      if (twin) {
        contradiction.event = twin.id;
        throw new Error('the backup contradicts the log');
      }
      for (const event of missing) events.add(event, event.id);
      await mergeDocuments(db.documentsOf(events), backup, present.size === 0);
      return missing.length;
    });
    return { ok: true, added };
  } catch (error) {
    if (contradiction.event) return refuse('contradicts', `answer ${contradiction.event}`);
    throw error;
  }
}

async function mergeDocuments(
  documents: IDBObjectStore,
  backup: {
    readonly events: readonly LogEvent[];
    readonly charts: readonly ChartDocument[];
    readonly settings: Settings;
  },
  fresh: boolean,
): Promise<void> {
  const charts = recordOf(await promisifyRequest(documents.get(CHARTS)));
  const theirs = Object.fromEntries(backup.charts.map((chart) => [chart.id, chart]));
  documents.put({ ...theirs, ...charts }, CHARTS);
  // Settings belong to the device; a device without a history takes those of the backup.
  if (fresh) documents.put(backup.settings, SETTINGS);
  const device = deviceOf(await promisifyRequest(documents.get(DEVICE)));
  if (!device) return;
  const own = backup.events.filter((event) => event.device === device.id);
  const next = own.reduce((most, event) => Math.max(most, event.seq + 1), device.next);
  documents.put({ id: device.id, next } satisfies Device, DEVICE);
}

function same(a: unknown, b: unknown): boolean {
  const parsed = parseEvent(b);
  return parsed.ok && canonical(a) === canonical(parsed.event);
}

/** JSON with keys in order: equal for equal values, however they were built. */
function canonical(value: unknown): string {
  return JSON.stringify(value, (_key, inner: unknown) =>
    typeof inner === 'object' && inner !== null && !Array.isArray(inner)
      ? Object.fromEntries(Object.entries(inner).sort(([a], [b]) => (a < b ? -1 : 1)))
      : inner,
  );
}

function deviceOf(stored: unknown): Device | null {
  const { id, next } = recordOf(stored);
  if (typeof id !== 'string' || typeof next !== 'number') return null;
  return { id, next };
}

function recordOf(stored: unknown): Readonly<Record<string, unknown>> {
  return typeof stored === 'object' && stored !== null ? { ...stored } : {};
}
