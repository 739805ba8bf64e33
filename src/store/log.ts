/** The log on the device, and everything else that a page loads with it. */

import { canContinue, type EventDraft, type LogEvent, type Snapshot } from '../scheduler/index.ts';
import { appendAllIn, appendIn } from './append.ts';
import type { UnreadRecord } from './backup.ts';
import type { Database } from './database.ts';
import { type Documents, loadDocuments } from './documents.ts';
import { collectEvents, type ReadEvents, readRecent } from './read-log.ts';

export interface Contents extends Documents {
  /** The events after the snapshot; all events if there is no snapshot. */
  readonly events: readonly LogEvent[];
  /** The state folded from the older events; null if there is none that `events` can continue. */
  readonly snapshot: Snapshot | null;
  /** Stored records that this version cannot read. They stay where they are. */
  readonly unread: readonly UnreadRecord[];
}

export interface LogStore {
  readonly load: () => Promise<Contents>;
  /** Returns every event of the log once, in no particular order. */
  readonly loadAll: () => Promise<readonly LogEvent[]>;
  /**
   * Moves the events `sealed` into chunks and stores the new snapshot. `base` is the number of events
   * in the snapshot that this tab loaded, 0 if it loaded none. Returns false and changes nothing if
   * another tab has changed the stored data in between.
   */
  readonly seal: (
    snapshot: Snapshot,
    sealed: readonly LogEvent[],
    base: number,
  ) => Promise<boolean>;
  /** Gives the event its id and its number, and appends it. Resolves when the event is on disk. */
  readonly append: (draft: EventDraft) => Promise<LogEvent>;
  /** Appends all of these events or none. */
  readonly appendAll: (drafts: readonly EventDraft[]) => Promise<readonly LogEvent[]>;
}

export function logStore(db: Database, newDeviceId: () => string): LogStore {
  // The serial of the stored snapshot that this tab saw last. Another tab wrote any later one.
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

/**
 * Reads the snapshot and the events after it. If those events cannot continue the snapshot, it reads
 * all events instead.
 */
async function readLog(
  db: Database,
): Promise<ReadEvents & { readonly snapshot: Snapshot | null; readonly serial: number }> {
  const { records, stored } = await readRecent(db);
  const recent = collectEvents();
  recent.add(records);
  const { snapshot, serial, upTo } = stored;
  if (canContinue(snapshot, recent.events)) return { ...recent, snapshot, serial };
  // There is no snapshot, so `readRecent` has already read every chunk.
  if (upTo === 0) return { ...recent, snapshot: null, serial };
  const whole = await readEverything(db);
  return { ...whole, snapshot: null, serial: whole.stored.serial };
}

async function readEverything(db: Database) {
  const { readWhole } = await import('./archive.ts');
  return readWhole(db, collectEvents);
}
