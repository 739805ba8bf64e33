/**
 * The log and the charts as syncing needs them, and what it keeps of its own. Opened by the worker
 * that syncs and by nothing else, so no page loads it.
 */

import { type ChartDocument, canonical, joinCharts, parseChart } from '../charts/index.ts';
import type { LogEvent } from '../scheduler/index.ts';
import type { Backup } from './backup.ts';
import { get, openDatabase, update } from './database.ts';
import { loadDocuments } from './documents.ts';
import { type ChartsIn, type TakenIn, takeIn } from './import-backup.ts';
import { eventReader } from './read-log.ts';
import { readWhole } from './read-whole.ts';
import type { Settings } from './settings.ts';

const SYNC = 'sync';

export interface SyncStore {
  /** What syncing keeps: not validated, and no part of a backup. */
  readonly loadState: () => Promise<unknown>;
  /** @param state anything that can be cloned, keys that cannot be read out as well */
  readonly saveState: (state: unknown) => Promise<void>;
  readonly contents: () => Promise<{
    readonly events: readonly LogEvent[];
    readonly charts: readonly ChartDocument[];
    readonly settings: Settings;
  }>;
  /**
   * The union with what is here, all of it or nothing; charts that several devices went on with are
   * joined. @param without ids of charts that are not wanted
   */
  readonly takeIn: (backup: Backup, without: ReadonlySet<string>) => Promise<TakenIn & Apart>;
  readonly close: () => Promise<void>;
}

/** Names of charts that are others under the same id: the one that is here stays. */
export interface Apart {
  readonly apart: readonly string[];
}

export function openSyncStore(name: string): SyncStore {
  const db = openDatabase(name);
  return {
    loadState: () => get<unknown>(SYNC, db.documents),
    saveState: (state) => update<unknown>(SYNC, () => state, db.documents),
    contents: async () => {
      const { events } = await readWhole(db, eventReader);
      const { charts, settings } = await loadDocuments(db);
      return { events, charts, settings };
    },
    takeIn: async (backup, without) => {
      const apart: string[] = [];
      const taken = await takeIn(db, backup, joining(without, apart));
      return { ...taken, apart };
    },
    close: db.close,
  };
}

/** @param apart is told the names of charts that are none of ours */
function joining(without: ReadonlySet<string>, apart: string[]): ChartsIn {
  return (mine, theirs) => {
    const ids = new Set(theirs.map(({ id }) => id).filter((id) => !without.has(id)));
    return [...ids].flatMap((id) => {
      const stored = Object.hasOwn(mine, id) ? mine[id] : undefined;
      const own = stored === undefined ? null : parseChart(stored);
      // One that this version cannot read is left as it is.
      if (stored !== undefined && own === null) return [];
      const joined = joinCharts(
        own,
        theirs.filter((one) => one.id === id),
      );
      if (joined.leftOut) apart.push(joined.document.name);
      return own && canonical(own) === canonical(joined.document) ? [] : [joined.document];
    });
  };
}
