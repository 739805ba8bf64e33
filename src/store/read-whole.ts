/** Reading the whole log, sealed chunks and all. */

import { type Database, promisifyRequest } from './database.ts';
import { readRecords, recordsOf, type TakePiece } from './read-log.ts';
import { CHUNK, SNAPSHOT, type StoredSnapshot, storedSnapshot } from './snapshot.ts';

/**
 * Reads the whole log in pieces, so that no write waits until all of it is read, and no more of it
 * than a piece is in memory twice. It begins anew if a chunk was taken away meanwhile.
 * @param begin gives what takes in the pieces, afresh each time
 * @returns what was begun last, and the snapshot that was there when it began
 */
export async function readWhole<T extends { readonly take: TakePiece }>(
  db: Database,
  begin: () => T,
): Promise<T & { readonly stored: StoredSnapshot }> {
  for (;;) {
    const taker = begin();
    const { recent, chunks, stored } = await db.log('readonly', async (log) => {
      const document = promisifyRequest<unknown>(db.documentsOf(log).get(SNAPSHOT));
      const keys = promisifyRequest(db.sealedOf(log).getAllKeys());
      const records = await readRecords(log);
      return { recent: records, chunks: await keys, stored: storedSnapshot(await document) };
    });
    for (let at = 0; at < recent.length; at += CHUNK) taker.take(recent.slice(at, at + CHUNK));
    if (await takeChunks(db, chunks, taker.take)) return { ...taker, stored };
  }
}

/** False as soon as one is missing. */
async function takeChunks(
  db: Database,
  keys: readonly IDBValidKey[],
  take: TakePiece,
): Promise<boolean> {
  for (const key of keys) {
    const chunk = await db.sealed<unknown>('readonly', (chunks) =>
      promisifyRequest(chunks.get(key)),
    );
    if (chunk === undefined) return false;
    take(recordsOf(chunk, key));
  }
  return true;
}
