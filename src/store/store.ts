/** The data that the app keeps on the device: an adapter around IndexedDB. */

import { type ChartStore, chartStore } from './charts.ts';
import { type Database, openDatabase } from './database.ts';
import { loadDocuments, saveSettings } from './documents.ts';
import { type DraftStore, draftStore } from './drafts.ts';
import type { Imported } from './import-backup.ts';
import { type LogStore, logStore } from './log.ts';
import { type RehearsalStore, rehearsalStore } from './rehearsal.ts';
import type { Settings, SettingsChange } from './settings.ts';
import type { SourceStore } from './sources.ts';

export interface Store extends LogStore, ChartStore, DraftStore, RehearsalStore {
  /**
   * Saves changed settings. A function gets the stored settings inside the transaction that writes.
   * So if two changes begin at the same time, the second builds on the first.
   */
  readonly saveSettings: (change: SettingsChange) => Promise<Settings>;
  /** @param made the time at which the backup is made, in ISO 8601 */
  readonly exportBackup: (made: string) => Promise<Blob>;
  readonly importBackup: (text: string) => Promise<Imported>;
  /** Loads the store that remembers which charts came from files hosted with the app. */
  readonly sources: () => Promise<SourceStore>;
  readonly close: () => Promise<void>;
}

export interface StoreOptions {
  readonly name: string;
  /** Returns a new random name for this browser: 1–32 characters from a–z and 0–9. */
  readonly newDeviceId: () => string;
}

export function createStore({ name, newDeviceId }: StoreOptions): Store {
  const db = openDatabase(name);
  return {
    ...logStore(db, newDeviceId),
    ...chartStore(db, newDeviceId),
    ...draftStore(db),
    ...rehearsalStore(db, newDeviceId),
    ...archiveStore(db),
    saveSettings: (change) => saveSettings(db, change),
    close: db.close,
  };
}

function archiveStore(db: Database): Pick<Store, 'exportBackup' | 'importBackup' | 'sources'> {
  const archive = () => import('./archive.ts');
  return {
    exportBackup: async (made) => (await archive()).exportBackup(db, made, await loadDocuments(db)),
    importBackup: async (text) => (await archive()).importBackup(db, text),
    sources: async () => (await archive()).sourceStore(db),
  };
}
