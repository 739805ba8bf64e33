/** What the app keeps on the device: the log, charts, settings, a rehearsal. An adapter around IndexedDB. */

import { type ChartDocument, type ChartDraft, canonical, parseChart } from '../charts/index.ts';
import {
  type EventDraft,
  type LogEvent,
  parseEvent,
  type RehearsalDraft,
  type RehearsedDraft,
} from '../scheduler/index.ts';
import { appendIn, DEVICE, type Device, deviceOf } from './append.ts';
import {
  type Backup,
  type BackupRefused,
  formatBackup,
  parseBackup,
  refuse,
  type UnreadRecord,
} from './backup.ts';
import { appendAll, CHARTS, continues, firstCharts, keepChart, removeChart } from './charts.ts';
import { type Database, get, openDatabase, promisifyRequest, update } from './database.ts';
import { dropDraft, loadDraft, saveDraft } from './drafts.ts';
import { type KeptPlan, loadPlan, savePlan } from './plan.ts';
import { recordOf } from './record.ts';
import {
  dropRehearsal,
  finishRehearsal,
  loadRehearsal,
  type StoredRehearsal,
  saveRehearsal,
} from './rehearsal.ts';
import {
  changed,
  DEFAULT_SETTINGS,
  isNewerSettings,
  parseSettings,
  type Settings,
  type SettingsChange,
} from './settings.ts';

const SETTINGS = 'settings';

export interface Contents {
  readonly events: readonly LogEvent[];
  /** Stored records that this version cannot read. They are left where they are. */
  readonly unread: readonly UnreadRecord[];
  /**
   * Charts and settings that this version cannot read. They are left where they are, too; and so is
   * a rehearsal, of which `loadRehearsal` tells.
   */
  readonly unreadDocuments: number;
  readonly charts: readonly ChartDocument[];
  readonly settings: Settings;
}

/** How many answers and charts were missing here and came in. */
export type Imported =
  | { readonly ok: true; readonly added: number; readonly charts: number }
  | BackupRefused;

export interface Store {
  readonly load: () => Promise<Contents>;
  /** Gives the event its place in the log and writes it; resolves when it is on disk. */
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  /**
   * A function is given what is stored, in the transaction that writes: of two changes begun at once
   * the second builds on the first.
   */
  readonly saveSettings: (change: SettingsChange) => Promise<Settings>;
  /** Writes events that belong together: all of them or none. */
  readonly appendAll: (drafts: readonly EventDraft[]) => Promise<readonly LogEvent[]>;
  /** Keeps these charts if there are none. */
  readonly firstCharts: (charts: readonly ChartDocument[]) => Promise<void>;
  /**
   * Writes a chart, new or gone on with, and events beside it. `base` is the digest of the revision
   * built on, null for a new chart. Null, with nothing written, if something else is on the disk.
   */
  readonly keepChart: (
    chart: ChartDocument,
    base: string | null,
    drafts: readonly EventDraft[],
  ) => Promise<readonly LogEvent[] | null>;
  /** False, with nothing removed, if it is the only one. */
  readonly removeChart: (id: string) => Promise<boolean>;
  /** Unsaved changes of a chart; null if there are none that can be read. */
  readonly loadDraft: (chart: string) => Promise<ChartDraft | null>;
  readonly saveDraft: (chart: string, draft: ChartDraft) => Promise<void>;
  /** Takes unsaved changes away; not if others were written in their place. */
  readonly dropDraft: (chart: string, mine: ChartDraft) => Promise<void>;
  /** The plan made last; null if there is none that can be read. */
  readonly loadPlan: () => Promise<KeptPlan | null>;
  readonly savePlan: (plan: KeptPlan) => Promise<void>;
  readonly exportBackup: (made: string) => Promise<string>;
  readonly importBackup: (text: string) => Promise<Imported>;
  readonly loadRehearsal: () => Promise<StoredRehearsal>;
  /** False, with nothing written, if another one is there, it is over, or this tab is behind. */
  readonly saveRehearsal: (draft: RehearsalDraft) => Promise<boolean>;
  /** Removes the rehearsal of that id; without an id, whatever is there. */
  readonly dropRehearsal: (id?: string) => Promise<void>;
  /**
   * Writes the finished rehearsal and removes the one under way, in one transaction; null, with
   * nothing written, if that is gone, over, or has other answers.
   */
  readonly finishRehearsal: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
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
    append: (draft) =>
      db.events('readwrite', (events) => appendIn(db, events, draft, options.newDeviceId)),
    saveSettings: async (change) => {
      let saved: Settings = DEFAULT_SETTINGS;
      await update(
        SETTINGS,
        (old) => {
          if (isNewerSettings(old))
            throw new Error('the settings are those of a newer Throughline');
          saved = changed(old, change);
          return saved;
        },
        db.documents,
      );
      return saved;
    },
    appendAll: (drafts) => appendAll(db, drafts, options.newDeviceId),
    firstCharts: (charts) => firstCharts(db, charts),
    keepChart: (chart, base, drafts) => keepChart(db, chart, base, drafts, options.newDeviceId),
    removeChart: (id) => removeChart(db, id),
    loadDraft: (chart) => loadDraft(db, chart),
    saveDraft: (chart, draft) => saveDraft(db, chart, draft),
    dropDraft: (chart, mine) => dropDraft(db, chart, mine),
    loadPlan: () => loadPlan(db),
    savePlan: (plan) => savePlan(db, plan),
    exportBackup: async (made) => {
      const { events, charts, settings, unread } = await load(db);
      return formatBackup({ events, charts, settings, unread }, made);
    },
    importBackup: (text) => importBackup(db, text),
    loadRehearsal: () => loadRehearsal(db),
    saveRehearsal: (draft) => saveRehearsal(db, draft),
    dropRehearsal: (id) => dropRehearsal(db, id),
    finishRehearsal: (id, draft) => finishRehearsal(db, id, draft, options.newDeviceId),
    close: db.close,
  };
}

async function load(db: Database): Promise<Contents> {
  const stored = await db.events('readonly', readRecords);
  const events: LogEvent[] = [];
  const unread: UnreadRecord[] = [];
  for (const [key, record] of stored) {
    const parsed = parseEvent(record);
    if (parsed.ok) events.push(parsed.event);
    else unread.push({ key, record });
  }
  const raw = Object.values(recordOf(await get<unknown>(CHARTS, db.documents)));
  const charts = raw.map(parseChart).filter((chart) => chart !== null);
  const rawSettings = await get<unknown>(SETTINGS, db.documents);
  const newer = isNewerSettings(rawSettings) ? 1 : 0;
  const unreadDocuments = raw.length - charts.length + newer;
  return { events, unread, unreadDocuments, charts, settings: parseSettings(rawSettings) };
}

/** Every record of a store by its key. */
async function readRecords(store: IDBObjectStore): Promise<ReadonlyMap<string, unknown>> {
  const keys = promisifyRequest(store.getAllKeys());
  const records = promisifyRequest<unknown[]>(store.getAll());
  const stored = await records;
  return new Map((await keys).map((key, n) => [String(key), stored[n]]));
}

/** Union with what is there, in one transaction: all of it or nothing. */
async function importBackup(db: Database, text: string): Promise<Imported> {
  const parsed = parseBackup(text);
  if (!parsed.ok) return parsed;
  const { backup } = parsed;
  const contradiction = { event: '' };
  try {
    const added = await db.events('readwrite', async (events) => {
      const present = await readRecords(events);
      const missing = backup.events.filter((event) => !present.has(event.id));
      const twin = backup.events.find(
        (event) => present.has(event.id) && !same(event, present.get(event.id)),
      );
      if (twin) {
        contradiction.event = twin.id;
        throw new Error('the backup contradicts the log');
      }
      for (const event of missing) events.add(event, event.id);
      for (const { key, record } of backup.unread) if (!present.has(key)) events.add(record, key);
      const charts = await mergeDocuments(db.documentsOf(events), backup, !hasAnswers(present));
      return { added: missing.length, charts };
    });
    return { ok: true, ...added };
  } catch (error) {
    if (contradiction.event) return refuse('contradicts', `answer ${contradiction.event}`);
    throw error;
  }
}

/** Of types that say what the player knows; a chart taken in, or a test shot, says nothing of it. */
function hasAnswers(records: ReadonlyMap<string, unknown>): boolean {
  const types: readonly unknown[] = ['answered', 'proved', 'met', 'drilled', 'rehearsed'];
  return [...records.values()].some((record) => types.includes(recordOf(record).type));
}

/** Returns how many charts came in. */
async function mergeDocuments(
  documents: IDBObjectStore,
  backup: Backup,
  fresh: boolean,
): Promise<number> {
  const mine = recordOf(await promisifyRequest(documents.get(CHARTS)));
  const theirs = backup.charts.filter((chart) =>
    continues(chart, Object.hasOwn(mine, chart.id) ? mine[chart.id] : undefined),
  );
  documents.put(
    { ...mine, ...Object.fromEntries(theirs.map((chart) => [chart.id, chart])) },
    CHARTS,
  );
  // Settings belong to the device; a device without an answer takes those of the backup.
  if (fresh) documents.put(backup.settings, SETTINGS);
  const device = deviceOf(await promisifyRequest(documents.get(DEVICE)));
  if (device) {
    const own = backup.events.filter((event) => event.device === device.id);
    const next = own.reduce((most, event) => Math.max(most, event.seq + 1), device.next);
    documents.put({ id: device.id, next } satisfies Device, DEVICE);
  }
  return theirs.length;
}

function same(a: unknown, b: unknown): boolean {
  const parsed = parseEvent(b);
  return parsed.ok && canonical(a) === canonical(parsed.event);
}
