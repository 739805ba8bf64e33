/**
 * The rehearsal under way: one document, of which two tabs may think that it is theirs. Whether a
 * tab may write is decided inside the transaction that writes, by what is on the disk then.
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
/** Ids of the last ones that were finished or dropped here: a tab that has not heard may still write. */
const OVER = 'rehearsals over';
/** No tab is left open for so many rehearsals. */
const MOST_OVER = 20;

/** The one under way; null if there is none. One that cannot be read is left where it is. */
export type StoredRehearsal = RehearsalDraft | 'unreadable' | null;

export async function loadRehearsal(db: Database): Promise<StoredRehearsal> {
  const stored = await get<unknown>(REHEARSAL, db.documents);
  return stored === undefined ? null : (parseRehearsal(stored) ?? 'unreadable');
}

/**
 * False, with nothing written, unless this tab may go on with it: it begins with nothing there, and
 * from then on each writing adds one answer to what is there, or is that again. So an answer that
 * another tab gave is not written over, and what was finished or dropped does not come back.
 */
export function saveRehearsal(db: Database, draft: RehearsalDraft): Promise<boolean> {
  return db.documents('readwrite', async (documents) => {
    // What could not be read back must not look saved.
    const mine = parseRehearsal(draft);
    if (!mine) throw new RangeError(`rehearsal ${draft.id} is out of range`);
    const stored: unknown = await promisifyRequest(documents.get(REHEARSAL));
    const goesOn =
      stored === undefined
        ? mine.answers.length === 0 && !(await isOver(documents, mine.id))
        : continues(mine, parseRehearsal(stored));
    if (!goesOn) return false;
    await promisifyRequest(documents.put(draft, REHEARSAL));
    return true;
  });
}

/**
 * Removes the document. With an id it removes that rehearsal only, so that a tab which is behind
 * does not drop what another one has begun since; without, whatever is there.
 */
export function dropRehearsal(db: Database, id?: string): Promise<void> {
  return db.documents('readwrite', async (documents) => {
    const stored = parseRehearsal(await promisifyRequest<unknown>(documents.get(REHEARSAL)));
    if (id !== undefined && stored?.id !== id) return;
    await promisifyRequest(documents.delete(REHEARSAL));
    if (stored) await addOver(documents, stored.id);
  });
}

/**
 * Writes the finished rehearsal into the log and removes the document: both or neither. Null, with
 * nothing written, if the document is gone, if its answers are not those that are to be written, or
 * if it was finished or dropped before. So a rehearsal never counts twice.
 */
export function finishRehearsal(
  db: Database,
  id: string,
  draft: RehearsedDraft,
  newDeviceId: () => string,
): Promise<LogEvent | null> {
  return db.events('readwrite', async (events) => {
    const documents = db.documentsOf(events);
    const there = parseRehearsal(await promisifyRequest<unknown>(documents.get(REHEARSAL)));
    const mine = there && parseRehearsal({ ...there, answers: draft.questions });
    if (there?.id !== id || !mine || !sameAnswers(mine.answers, there.answers)) return null;
    if (await isOver(documents, id)) return null;
    const event = await appendIn(db, events, draft, newDeviceId);
    await promisifyRequest(documents.delete(REHEARSAL));
    await addOver(documents, id);
    return event;
  });
}

type Answers = RehearsalDraft['answers'];

/** Is it what is there, or that and one answer more. */
function continues(mine: RehearsalDraft, there: RehearsalDraft | null): boolean {
  if (there?.id !== mine.id) return false;
  const more = mine.answers.length - there.answers.length;
  return more <= 1 && sameAnswers(mine.answers.slice(0, there.answers.length), there.answers);
}

/** Both as the parser gives them, so that equal answers have their fields in one order. */
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
