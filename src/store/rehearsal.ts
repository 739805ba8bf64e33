/**
 * The rehearsal under way: one document, which two tabs may both take for theirs. The transaction that
 * writes decides whether a tab may, by what is on the disk then.
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
/** Ids of rehearsals that were finished or dropped here lately; a tab that missed it may still write. */
const OVER = 'rehearsals over';
/** No tab stays open for more rehearsals than this. */
const MOST_OVER = 20;

/** Null if there is none. One that cannot be read is left where it is. */
export type StoredRehearsal = RehearsalDraft | 'unreadable' | null;

export interface RehearsalStore {
  readonly loadRehearsal: () => Promise<StoredRehearsal>;
  /**
   * False, with nothing written, unless this tab may continue the rehearsal: the first write finds
   * nothing there, and each later one adds one answer to what is there, or repeats it. So no tab
   * overwrites an answer given in another, and a rehearsal that is over does not come back.
   */
  readonly saveRehearsal: (draft: RehearsalDraft) => Promise<boolean>;
  /**
   * With an id it removes that rehearsal only, so that a tab that is behind does not drop the next
   * one; without an id, whatever is there.
   */
  readonly dropRehearsal: (id?: string) => Promise<void>;
  /**
   * Appends the finished rehearsal to the log and removes the one under way: both or neither. Null,
   * with nothing written, if the one under way is gone, is over, or has other answers. So a rehearsal
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
    // What cannot be read back must not look saved.
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

/** Is it the stored rehearsal, with at most one more answer. */
function continues(mine: RehearsalDraft, stored: RehearsalDraft | null): boolean {
  if (stored?.id !== mine.id) return false;
  const more = mine.answers.length - stored.answers.length;
  return more <= 1 && sameAnswers(mine.answers.slice(0, stored.answers.length), stored.answers);
}

/** Compares what the parser returns, which gives equal answers their fields in one order. */
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
