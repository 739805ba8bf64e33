/** Merges the folder's new files with the data on this device. */

import type { ChartDocument } from '../charts/index.ts';
import type { Backup } from '../store/index.ts';
import { readFile } from './folder.ts';
import { changedWords, otherChartWords } from './notes.ts';
import { Refused } from './refused.ts';
import { contentsOf, digestChart, joinBackups, parseSegment } from './segments.ts';
import type { Session } from './session.ts';
import type { FileContents, SyncState } from './state.ts';

/**
 * How much JSON to merge at once, in characters. A very long log comes in several batches. Each batch
 * is merged as a whole.
 */
const BATCH = 48_000_000;

export interface Received {
  /** How many events were new on this device. */
  readonly events: number;
  /** The charts that were new on this device or have changed, as they are now. */
  readonly charts: readonly ChartDocument[];
  /** What the player should know. Each note is one or two sentences. */
  readonly notes: readonly string[];
}

/**
 * @param fresh the names of the files to read
 * @param kept the files that this device has read before and that are still there
 * @param unwanted the ids of charts to leave out
 */
export async function receive(
  session: Session,
  fresh: readonly string[],
  kept: SyncState['files'],
  unwanted: ReadonlySet<string>,
): Promise<Received> {
  let files = kept;
  let events = 0;
  const charts = new Map<string, ChartDocument>();
  const notes: string[] = [];
  for await (const batch of readBatches(session, fresh)) {
    const merged = await session.store.merge(joinBackups(batch.pieces), unwanted);
    if (!merged.ok) throw new Refused('contradicts', merged.say);
    events += merged.added;
    for (const chart of merged.charts) charts.set(chart.id, chart);
    notes.push(...merged.clashes.map(otherChartWords));
    files = { ...files, ...batch.files };
  }
  await session.save({ files });
  const changed = [...charts.values()];
  return { events, charts: changed, notes: [...notes, ...changed.map(changedWords)] };
}

interface Batch {
  readonly pieces: Backup[];
  readonly files: Record<string, FileContents>;
  /** The length of all texts together, in characters. */
  length: number;
}

async function* readBatches(session: Session, names: readonly string[]): AsyncGenerator<Batch> {
  let batch: Batch = { pieces: [], files: {}, length: 0 };
  for (const name of names) {
    const text = await readFile(session, name);
    if (text === null) continue;
    if (batch.length > 0 && batch.length + text.length > BATCH) {
      yield batch;
      batch = { pieces: [], files: {}, length: 0 };
    }
    const piece = parseSegment(name, text);
    const charts = await Promise.all(piece.charts.map(digestChart));
    batch.pieces.push(piece);
    batch.files[name] = contentsOf({ events: piece.events, charts });
    batch.length += text.length;
  }
  if (batch.pieces.length > 0) yield batch;
}
