/** The log on the device, and all that a page loads with it. */

import { canContinue, type EventDraft, type LogEvent, type Snapshot } from '../scheduler/index.ts';
import { appendAllIn, appendIn } from './append.ts';
import type { UnreadRecord } from './backup.ts';
import type { Database } from './database.ts';
import { type Documents, loadDocuments } from './documents.ts';
import { collectEvents, type ReadEvents, readRecent } from './read-log.ts';

export interface Contents extends Documents {
  /** Those after the snapshot; all if there is none. */
  readonly events: readonly LogEvent[];
  /** A fold of the older events; null if there is none that `events` continue. */
  readonly snapshot: Snapshot | null;
  /** Stored records that this version cannot read. They are left where they are. */
  readonly unread: readonly UnreadRecord[];
}

export interface LogStore {
  readonly load: () => Promise<Contents>;
  /** The whole log, each event once, in no order. */
  readonly loadAll: () => Promise<readonly LogEvent[]>;
  /**
   * Moves events into chunks and stores the fold of them and of all before. `base` is the number of
   * events in the snapshot that was loaded, 0 without one. False, with nothing changed, if something
   * else is on the disk by now.
   */
  readonly seal: (
    snapshot: Snapshot,
    sealed: readonly LogEvent[],
    base: number,
  ) => Promise<boolean>;
  /** Gives the event its place in the log and appends it; resolves when it is on disk. */
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  /** Appends all of these events or none. */
  readonly appendAll: (drafts: readonly EventDraft[]) => Promise<readonly LogEvent[]>;
}

export function logStore(db: Database, newDeviceId: () => string): LogStore {
  // Serial of the stored snapshot that this tab saw last; a later one is another tab's.
  let seen = 0;
  return {
    load: async () => {
      const { events, unread, snapshot, serial } = await readLog(db);
      const documents = await loadDocuments(db);
      seen = serial;
      return { events, unread, snapshot, ...documents };
    },
    loadAll: async () => (await readEverything(db)).events,
    seal: async (snapshot, sealed, base) => {
      const serial = seen;
      const { seal } = await import('./archive.ts');
      const next = await seal(db, { snapshot, sealed, base, serial });
      if (next !== null) seen = next;
      return next !== null;
    },
    append: (draft) => db.events('readwrite', (events) => appendIn(db, events, draft, newDeviceId)),
    appendAll: (drafts) =>
      db.events('readwrite', (events) => appendAllIn(db, events, drafts, newDeviceId)),
  };
}

/** The snapshot and the events after it; all events if these do not continue it. */
async function readLog(
  db: Database,
): Promise<ReadEvents & { readonly snapshot: Snapshot | null; readonly serial: number }> {
  const { records, stored } = await readRecent(db);
  const recent = collectEvents();
  recent.add(records);
  const { snapshot, serial, upTo } = stored;
  if (canContinue(snapshot, recent.events)) return { ...recent, snapshot, serial };
  // Without a snapshot all chunks were read as recent.
  if (upTo === 0) return { ...recent, snapshot: null, serial };
  const whole = await readEverything(db);
  return { ...whole, snapshot: null, serial: whole.stored.serial };
}

async function readEverything(db: Database) {
  const { readWhole } = await import('./archive.ts');
  return readWhole(db, collectEvents);
}
