/**
 * Performs one sync. It receives the data that only the folder has, then sends the data that only this
 * device has. Files are written once and never changed. A device removes only its own files, and only
 * after it has written their contents to new ones. So a sync may be interrupted at any point, and the
 * next sync continues.
 */

import type { Backup } from '../store/index.ts';
import { has } from './event-ids.ts';
import { listFolder, removeFile, writeFile } from './folder.ts';
import { lostWords } from './notes.ts';
import { canReplace, compareFiles, countLost, filesToCompact, unsent } from './plan.ts';
import { receive } from './receive.ts';
import {
  contentsOf,
  cutSegments,
  type DigestedChart,
  digestChart,
  FULL_SEGMENT,
} from './segments.ts';
import { type Ports, Session } from './session.ts';
import { parseState } from './state.ts';

export interface Done {
  /** How many events came in. */
  readonly received: number;
  /** The names of the charts that came in or changed. */
  readonly charts: readonly string[];
  readonly sent: number;
}

/**
 * Syncs this device. Returns null if no folder is connected. Saves the reason for a failure in the
 * state, for the player to see.
 * @throws Refused if the sync fails
 */
export async function sync(ports: Ports): Promise<Done | null> {
  const state = parseState(await ports.store.loadState());
  if (!state) return null;
  const session = new Session(ports, state);
  try {
    const done = await syncOnce(session);
    await session.save({ worked: ports.now(), failed: null });
    return done;
  } catch (error) {
    await session.save({ failed: error instanceof Error ? error.message : String(error) });
    throw error;
  }
}

async function syncOnce(session: Session): Promise<Done> {
  const { fresh, kept, gone } = compareFiles(await listFolder(session), session.state.files);
  const unwanted = await removedCharts(session);
  const received = await receive(session, fresh, kept, unwanted);
  const lost = countLost(gone, session.state.files);
  const here = await contentsHere(session);
  const sent = await send(session, here);
  await compact(session, here);
  await session.save({
    notes: lost > 0 ? [...received.notes, lostWords(lost)] : received.notes,
    known: here.charts.map(({ document }) => document.id),
  });
  return { received: received.events, charts: received.charts.map(({ name }) => name), sent };
}

/** Returns the ids of charts that the player removed from this device. Other devices keep them. */
async function removedCharts(session: Session): Promise<ReadonlySet<string>> {
  const here = new Set((await session.store.contents()).charts.map(({ id }) => id));
  const { known, removed } = session.state;
  const gone = new Set([...removed, ...known].filter((id) => !here.has(id)));
  await session.save({ removed: [...gone] });
  return gone;
}

interface Here {
  readonly events: Backup['events'];
  readonly charts: readonly DigestedChart[];
  readonly settings: Backup['settings'];
}

async function contentsHere({ store }: Session): Promise<Here> {
  const { charts, events, settings } = await store.contents();
  return { events, charts: await Promise.all(charts.map(digestChart)), settings };
}

/** @returns the number of events that it sent */
async function send(session: Session, { events, charts, settings }: Here): Promise<number> {
  const missing = unsent(session.state.files, events, charts);
  for (const segment of cutSegments(missing.events, missing.charts))
    await writeFile(session, segment, settings);
  return missing.events.length;
}

/** Replaces many small files from this device with one, so that the folder stays short for years. */
async function compact(session: Session, { events, charts, settings }: Here): Promise<void> {
  const { writer, files } = session.state;
  const small = filesToCompact(files, writer, charts, FULL_SEGMENT);
  if (!small) return;
  const ids = new Set(small.names.flatMap((name) => files[name]?.charts.map(([id]) => id) ?? []));
  const segments = cutSegments(
    events.filter((event) => has(small.ids, event)),
    charts.filter(({ document }) => ids.has(document.id)),
  );
  if (!canReplace(small.ids, segments.map(contentsOf))) return;
  for (const segment of segments) await writeFile(session, segment, settings);
  for (const name of small.names) await removeFile(session, name);
}
