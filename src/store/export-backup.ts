/** Writing a backup, piece by piece: a million answers are 300 MB of text, too much to build twice. */

import type { ChartDocument } from '../charts/index.ts';
import type { LogEvent } from '../scheduler/index.ts';
import { backupEnd, backupHead, portable, type UnreadRecord } from './backup.ts';
import type { Database } from './database.ts';
import { type TakePiece, validating } from './read-log.ts';
import { readWhole } from './read-whole.ts';
import type { Settings } from './settings.ts';

/** @param made ISO 8601 time at which the backup is made */
export async function exportBackup(
  db: Database,
  made: string,
  rest: { readonly charts: readonly ChartDocument[]; readonly settings: Settings },
): Promise<Blob> {
  const { pieces, unread } = await readWhole(db, eventWriter);
  const { charts, settings } = rest;
  const end = backupEnd({ charts, settings, unread: portable(unread) });
  return new Blob([backupHead(made), ...pieces, end], { type: 'application/json' });
}

/** Each piece is handed to the browser as it comes, which keeps it where there is room. */
function eventWriter(): {
  readonly pieces: readonly Blob[];
  readonly unread: readonly UnreadRecord[];
  readonly take: TakePiece;
} {
  const pieces: Blob[] = [];
  const write = (events: readonly LogEvent[]): void => {
    if (events.length === 0) return;
    const list = events.map((event) => JSON.stringify(event)).join(',');
    pieces.push(new Blob([pieces.length > 0 ? ',' : '', list]));
  };
  return { pieces, ...validating(write) };
}
