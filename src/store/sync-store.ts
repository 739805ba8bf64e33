/**
 * The store that syncing uses: the log, the charts, and syncing's own state. Only the sync worker opens
 * it, so no page loads this file.
 */

import { type ChartDocument, canonical, joinCharts, parseChart } from '../charts/index.ts';
import type { LogEvent } from '../scheduler/index.ts';
import type { Backup } from './backup.ts';
import { get, openDatabase, update } from './database.ts';
import { loadDocuments } from './documents.ts';
import { type MergeCharts, type Merged, mergeBackup } from './import-backup.ts';
import { collectEvents } from './read-log.ts';
import { readWhole } from './read-whole.ts';
import type { Settings } from './settings.ts';

const SYNC = 'sync';

export interface SyncStore {
  /** Returns syncing's own state, not validated. Backups do not include it. */
  readonly loadState: () => Promise<unknown>;
  /** @param state any value that can be cloned; it may contain non-extractable keys */
  readonly saveState: (state: unknown) => Promise<void>;
  readonly contents: () => Promise<{
    readonly events: readonly LogEvent[];
    readonly charts: readonly ChartDocument[];
    readonly settings: Settings;
  }>;
  /**
   * Merges a backup with the data on this device, all or nothing. Joins charts that several devices
   * have continued.
   * @param unwanted the ids of charts to leave out
   */
  readonly merge: (backup: Backup, unwanted: ReadonlySet<string>) => Promise<Merged & Clashes>;
  readonly close: () => Promise<void>;
}

export interface Clashes {
  /**
   * The names of charts with the id of a different chart on this device. The chart on this device
   * stays.
   */
  readonly clashes: readonly string[];
}

export function openSyncStore(name: string): SyncStore {
  const db = openDatabase(name);
  return {
    loadState: () => get<unknown>(SYNC, db.documents),
    saveState: (state) => update<unknown>(SYNC, () => state, db.documents),
    contents: async () => {
      const { events } = await readWhole(db, collectEvents);
      const { charts, settings } = await loadDocuments(db);
      return { events, charts, settings };
    },
    merge: async (backup, unwanted) => {
      const clashes: string[] = [];
      const merged = await mergeBackup(db, backup, joining(unwanted, clashes));
      return { ...merged, clashes };
    },
    close: db.close,
  };
}

/** @param clashes the list to which the names of clashing charts are added */
function joining(unwanted: ReadonlySet<string>, clashes: string[]): MergeCharts {
  return (mine, theirs) => {
    const ids = new Set(theirs.map(({ id }) => id).filter((id) => !unwanted.has(id)));
    return [...ids].flatMap((id) => {
      const stored = Object.hasOwn(mine, id) ? mine[id] : undefined;
      const own = stored === undefined ? null : parseChart(stored);
      // A stored chart that this version cannot read stays as it is.
      if (stored !== undefined && own === null) return [];
      const joined = joinCharts(
        own,
        theirs.filter((one) => one.id === id),
      );
      if (joined.leftOut) clashes.push(joined.document.name);
      return own && canonical(own) === canonical(joined.document) ? [] : [joined.document];
    });
  };
}
