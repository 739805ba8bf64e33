/** Reads the whole log, including its sealed chunks. */

import { type Database, promisifyRequest } from './database.ts';
import { type AddRecords, readRecords, recordsOf } from './read-log.ts';
import { CHUNK, SNAPSHOT, type StoredSnapshot, storedSnapshot } from './snapshot.ts';

/**
 * Reads the log in batches. So no write has to wait for the whole read, and at most one batch is in
 * memory twice. Starts over if another tab removes a chunk during the read.
 * @param begin creates the collector that receives the batches; called once for each attempt
 * @returns the collector of the last attempt, and the snapshot stored when that attempt began
 */
export async function readWhole<T extends { readonly add: AddRecords }>(
  db: Database,
  begin: () => T,
): Promise<T & { readonly stored: StoredSnapshot }> {
  for (;;) {
    const collector = begin();
    const { recent, chunks, stored } = await db.log('readonly', async (log) => {
      const document = promisifyRequest<unknown>(db.documentsOf(log).get(SNAPSHOT));
      const keys = promisifyRequest(db.sealedOf(log).getAllKeys());
      const records = await readRecords(log);
      return { recent: records, chunks: await keys, stored: storedSnapshot(await document) };
    });
    for (let at = 0; at < recent.length; at += CHUNK) collector.add(recent.slice(at, at + CHUNK));
    if (await addChunks(db, chunks, collector.add)) return { ...collector, stored };
  }
}

/** Reads the chunks with these keys. Returns false as soon as one of them is missing. */
async function addChunks(
  db: Database,
  keys: readonly IDBValidKey[],
  add: AddRecords,
): Promise<boolean> {
  for (const key of keys) {
    const chunk = await db.sealed<unknown>('readonly', (chunks) =>
      promisifyRequest(chunks.get(key)),
    );
    if (chunk === undefined) return false;
    add(recordsOf(chunk, key));
  }
  return true;
}
