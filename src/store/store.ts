/** What the app keeps on the device: the log, charts, settings, a rehearsal. An adapter around IndexedDB. */

import type { ChartDocument, ChartDraft } from '../charts/index.ts';
import {
  canContinue,
  type EventDraft,
  type LogEvent,
  type RehearsalDraft,
  type RehearsedDraft,
  type Snapshot,
} from '../scheduler/index.ts';
import { appendIn } from './append.ts';
import type { UnreadRecord } from './backup.ts';
import { appendAll, firstCharts, keepChart, removeChart } from './charts.ts';
import { type Database, openDatabase, update } from './database.ts';
import { type Documents, loadDocuments, SETTINGS } from './documents.ts';
import { dropDraft, loadDraft, saveDraft } from './drafts.ts';
import type { Imported } from './import-backup.ts';
import { type KeptPlan, loadPlan, savePlan } from './plan.ts';
import { eventReader, type ReadEvents, readRecent } from './read-log.ts';
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
  type Settings,
  type SettingsChange,
} from './settings.ts';
import type { SourceStore } from './sources.ts';

export interface Contents extends Documents {
  /** Those after the snapshot; all if there is none. */
  readonly events: readonly LogEvent[];
  /** A fold of the older events; null if there is none from which the others go on. */
  readonly snapshot: Snapshot | null;
  /** Stored records that this version cannot read. They are left where they are. */
  readonly unread: readonly UnreadRecord[];
}

export interface Store {
  readonly load: () => Promise<Contents>;
  /** The whole log, each event once, in no order. */
  readonly loadAll: () => Promise<readonly LogEvent[]>;
  /**
   * Moves events into chunks and keeps the fold of them and of those before. `base` is the number of
   * events in the snapshot that was loaded, 0 without one. False, with nothing changed, if something
   * else is on the disk by now.
   */
  readonly seal: (
    snapshot: Snapshot,
    sealed: readonly LogEvent[],
    base: number,
  ) => Promise<boolean>;
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
  readonly firstCharts: (charts: readonly ChartDocument[]) => Promise<boolean>;
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
  readonly exportBackup: (made: string) => Promise<Blob>;
  readonly importBackup: (text: string) => Promise<Imported>;
  /** Where charts come from that are files beside the app. */
  readonly sources: () => Promise<SourceStore>;
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
  const seen: Seen = { serial: 0 };
  return {
    load: () => load(db, seen),
    loadAll: async () => {
      const { readWhole } = await import('./archive.ts');
      return (await readWhole(db, eventReader)).events;
    },
    seal: async (snapshot, sealed, base) => {
      const { serial } = seen;
      const { seal } = await import('./archive.ts');
      const next = await seal(db, { snapshot, sealed, base, serial });
      if (next !== null) seen.serial = next;
      return next !== null;
    },
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
      const { exportBackup } = await import('./archive.ts');
      return exportBackup(db, made, await loadDocuments(db));
    },
    importBackup: async (text) => {
      const { importBackup } = await import('./archive.ts');
      return importBackup(db, text);
    },
    sources: async () => (await import('./archive.ts')).sourcesIn(db),
    loadRehearsal: () => loadRehearsal(db),
    saveRehearsal: (draft) => saveRehearsal(db, draft),
    dropRehearsal: (id) => dropRehearsal(db, id),
    finishRehearsal: (id, draft) => finishRehearsal(db, id, draft, options.newDeviceId),
    close: db.close,
  };
}

/** The stored snapshot that this tab saw last; a later one is another tab's. */
interface Seen {
  serial: number;
}

async function load(db: Database, seen: Seen): Promise<Contents> {
  const { events, unread, snapshot, serial } = await readLog(db);
  const documents = await loadDocuments(db);
  seen.serial = serial;
  return { events, unread, snapshot, ...documents };
}

/** The snapshot and what came after it; everything if it cannot be gone on from. */
async function readLog(
  db: Database,
): Promise<ReadEvents & { readonly snapshot: Snapshot | null; readonly serial: number }> {
  const { records, stored } = await readRecent(db);
  const recent = eventReader();
  recent.take(records);
  const { snapshot, serial, upTo } = stored;
  if (canContinue(snapshot, recent.events)) return { ...recent, snapshot, serial };
  // Without a snapshot all chunks come after it.
  if (upTo === 0) return { ...recent, snapshot: null, serial };
  const { readWhole } = await import('./archive.ts');
  const whole = await readWhole(db, eventReader);
  return { ...whole, snapshot: null, serial: whole.stored.serial };
}
