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

export const REHEARSAL = 'rehearsal';

/** Null if there is none, or none that this version can read; that one is left where it is. */
export async function loadRehearsal(db: Database): Promise<RehearsalDraft | null> {
  return parseRehearsal(await get<unknown>(REHEARSAL, db.documents));
}

/**
 * False, with nothing written, if another rehearsal is there, one that cannot be read, or the same
 * one with more answers: this tab is behind.
 */
export function saveRehearsal(db: Database, draft: RehearsalDraft): Promise<boolean> {
  return db.documents('readwrite', async (documents) => {
    // What could not be read back must not look saved.
    if (!parseRehearsal(draft)) throw new RangeError(`rehearsal ${draft.id} is out of range`);
    const stored: unknown = await promisifyRequest(documents.get(REHEARSAL));
    if (stored !== undefined && !continues(draft.id, draft.answers.length, stored)) return false;
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
    const stored: unknown = await promisifyRequest(documents.get(REHEARSAL));
    if (id !== undefined && parseRehearsal(stored)?.id !== id) return;
    await promisifyRequest(documents.delete(REHEARSAL));
  });
}

/**
 * Writes the finished rehearsal into the log and removes the document: both or neither. Null, with
 * nothing written, if the document is gone, since another tab finished or dropped it, or if it is
 * further on than what is to be written. So a rehearsal never counts twice.
 */
export function finishRehearsal(
  db: Database,
  id: string,
  draft: RehearsedDraft,
  newDeviceId: () => string,
): Promise<LogEvent | null> {
  return db.events('readwrite', async (events) => {
    const documents = db.documentsOf(events);
    const stored: unknown = await promisifyRequest(documents.get(REHEARSAL));
    if (!continues(id, draft.questions.length, stored)) return null;
    const event = await appendIn(db, events, draft, newDeviceId);
    await promisifyRequest(documents.delete(REHEARSAL));
    return event;
  });
}

/** Is it the rehearsal that is stored, with no fewer answers. */
function continues(id: string, answers: number, stored: unknown): boolean {
  const there = parseRehearsal(stored);
  return there !== null && there.id === id && answers >= there.answers.length;
}
