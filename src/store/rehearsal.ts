/**
 * Stores the rehearsal under way, in one document. Two tabs may both try to continue it. The
 * transaction that writes checks what is on the disk, to decide whether its tab may.
 */

import {
  type LogEvent,
  parseRehearsal,
  type RehearsalDraft,
  type RehearsedDraft,
} from '../scheduler/index.ts';
import { appendIn } from './append.ts';
import { type Database, get, promisifyRequest } from './database.ts';

const REHEARSAL = 'rehearsal';
/**
 * Key of the ids of rehearsals that were recently finished or dropped here. A tab that missed this may
 * still try to write one of them.
 */
const OVER = 'rehearsals over';
/** How many of these ids to keep. No tab stays open for more rehearsals than this. */
const MOST_OVER = 20;

/** Null if no rehearsal is stored. A rehearsal that cannot be read stays where it is. */
export type StoredRehearsal = RehearsalDraft | 'unreadable' | null;

export interface RehearsalStore {
  readonly loadRehearsal: () => Promise<StoredRehearsal>;
  /**
   * Saves the rehearsal. Returns false and writes nothing if this tab may not continue it. The first
   * write must find nothing stored. Each later write must add at most one answer to the stored ones.
   * So no tab overwrites an answer from another tab, and a rehearsal that is over does not come back.
   */
  readonly saveRehearsal: (draft: RehearsalDraft) => Promise<boolean>;
  /**
   * Removes the stored rehearsal. With an id, it removes only the rehearsal with that id, so that a tab
   * that is behind does not remove the next one.
   */
  readonly dropRehearsal: (id?: string) => Promise<void>;
  /**
   * Appends the finished rehearsal to the log and removes the stored one: both or neither. Returns null
   * and writes nothing if the stored one is gone, is over, or has different answers. So a rehearsal
   * never counts twice.
   */
  readonly finishRehearsal: (id: string, draft: RehearsedDraft) => Promise<LogEvent | null>;
}

export function rehearsalStore(db: Database, newDeviceId: () => string): RehearsalStore {
  return {
    loadRehearsal: () => load(db),
    saveRehearsal: (draft) => save(db, draft),
    dropRehearsal: (id) => drop(db, id),
    finishRehearsal: (id, draft) => finish(db, id, draft, newDeviceId),
  };
}

async function load(db: Database): Promise<StoredRehearsal> {
  const stored = await get<unknown>(REHEARSAL, db.documents);
  return stored === undefined ? null : (parseRehearsal(stored) ?? 'unreadable');
}

function save(db: Database, draft: RehearsalDraft): Promise<boolean> {
  return db.documents('readwrite', async (documents) => {
    // A rehearsal that cannot be read back must not look saved.
    const mine = parseRehearsal(draft);
    if (!mine) throw new RangeError(`rehearsal ${draft.id} is out of range`);
    const stored: unknown = await promisifyRequest(documents.get(REHEARSAL));
    const maySave =
      stored === undefined
        ? mine.answers.length === 0 && !(await isOver(documents, mine.id))
        : continues(mine, parseRehearsal(stored));
    if (!maySave) return false;
    await promisifyRequest(documents.put(draft, REHEARSAL));
    return true;
  });
}

function drop(db: Database, id: string | undefined): Promise<void> {
  return db.documents('readwrite', async (documents) => {
    const stored = parseRehearsal(await promisifyRequest<unknown>(documents.get(REHEARSAL)));
    if (id !== undefined && stored?.id !== id) return;
    await promisifyRequest(documents.delete(REHEARSAL));
    if (stored) await addOver(documents, stored.id);
  });
}

function finish(
  db: Database,
  id: string,
  draft: RehearsedDraft,
  newDeviceId: () => string,
): Promise<LogEvent | null> {
  return db.events('readwrite', async (events) => {
    const documents = db.documentsOf(events);
    const stored = parseRehearsal(await promisifyRequest<unknown>(documents.get(REHEARSAL)));
    const mine = stored && parseRehearsal({ ...stored, answers: draft.questions });
    if (stored?.id !== id || !mine || !sameAnswers(mine.answers, stored.answers)) return null;
    if (await isOver(documents, id)) return null;
    const event = await appendIn(db, events, draft, newDeviceId);
    await promisifyRequest(documents.delete(REHEARSAL));
    await addOver(documents, id);
    return event;
  });
}

type Answers = RehearsalDraft['answers'];

/** Returns whether `mine` is the stored rehearsal with at most one more answer. */
function continues(mine: RehearsalDraft, stored: RehearsalDraft | null): boolean {
  if (stored?.id !== mine.id) return false;
  const more = mine.answers.length - stored.answers.length;
  return more <= 1 && sameAnswers(mine.answers.slice(0, stored.answers.length), stored.answers);
}

/** Compares parsed answers as text. The parser always puts their fields in the same order. */
function sameAnswers(mine: Answers, theirs: Answers): boolean {
  return JSON.stringify(mine) === JSON.stringify(theirs);
}

async function isOver(documents: IDBObjectStore, id: string): Promise<boolean> {
  return (await readOver(documents)).includes(id);
}

async function addOver(documents: IDBObjectStore, id: string): Promise<void> {
  const over = [...(await readOver(documents)), id].slice(-MOST_OVER);
  await promisifyRequest(documents.put(over, OVER));
}

async function readOver(documents: IDBObjectStore): Promise<readonly unknown[]> {
  const stored: unknown = await promisifyRequest(documents.get(OVER));
  return Array.isArray(stored) ? stored : [];
}
