/** Writes a backup in batches, so that a long log is not in memory twice. */

import type { ChartDocument } from '../charts/index.ts';
import type { LogEvent } from '../scheduler/index.ts';
import { backupEnd, backupHead, portable, type UnreadRecord } from './backup.ts';
import type { Database } from './database.ts';
import { type AddRecords, validating } from './read-log.ts';
import { readWhole } from './read-whole.ts';
import type { Settings } from './settings.ts';

/** @param made the time at which the backup is made, in ISO 8601 */
export async function exportBackup(
  db: Database,
  made: string,
  rest: { readonly charts: readonly ChartDocument[]; readonly settings: Settings },
): Promise<Blob> {
  const { parts, unread } = await readWhole(db, writeEvents);
  const { charts, settings } = rest;
  const end = backupEnd({ charts, settings, unread: portable(unread) });
  return new Blob([backupHead(made), ...parts, end], { type: 'application/json' });
}

/**
 * Returns a collector that turns each batch of events into a blob at once. The browser can move blobs
 * out of memory.
 */
function writeEvents(): {
  readonly parts: readonly Blob[];
  readonly unread: readonly UnreadRecord[];
  readonly add: AddRecords;
} {
  const parts: Blob[] = [];
  const write = (events: readonly LogEvent[]): void => {
    if (events.length === 0) return;
    const list = events.map((event) => JSON.stringify(event)).join(',');
    parts.push(new Blob([parts.length > 0 ? ',' : '', list]));
  };
  return { parts, ...validating(write) };
}
