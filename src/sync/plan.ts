/**
 * Finds out what a sync has to do. These pure functions use the folder's listing and what this device
 * knows about the folder's files.
 */

import type { LogEvent } from '../scheduler/index.ts';
import { covers, type EventIds, eventIds, has, runsIn } from './event-ids.ts';
import { isBy, isSegmentName } from './names.ts';
import type { DigestedChart } from './segments.ts';
import type { FileContents } from './state.ts';

export type Files = Readonly<Record<string, FileContents>>;

/** If a device has more small files than this in the folder, it merges them into one. */
const MOST_SMALL = 16;

function idsIn(files: readonly FileContents[]): EventIds {
  return eventIds(files.flatMap(({ runs }) => runs));
}

export interface Compared {
  /** The names of the files that this device has not read yet, in order. */
  readonly fresh: readonly string[];
  /** Known files that are still there. */
  readonly kept: Files;
  /** Known files that are gone. */
  readonly gone: Files;
}

export function compareFiles(listed: readonly string[], files: Files): Compared {
  const names = new Set(listed);
  const known = Object.entries(files);
  return {
    fresh: listed.filter((name) => isSegmentName(name) && !Object.hasOwn(files, name)),
    kept: Object.fromEntries(known.filter(([name]) => names.has(name))),
    gone: Object.fromEntries(known.filter(([name]) => !names.has(name))),
  };
}

/**
 * Counts the events that were in files that are now gone and that are in no present file. Compacting
 * loses no events. Restoring the folder to an earlier state or emptying it does.
 */
export function countLost(gone: Files, present: Files): number {
  const there = idsIn(Object.values(present));
  let lost = 0;
  for (const [device, from, to] of runsIn(idsIn(Object.values(gone))))
    for (let seq = from; seq <= to; seq++) if (!has(there, { device, seq })) lost += 1;
  return lost;
}

/** Returns the events and charts that this device has and the folder does not. */
export function unsent(
  files: Files,
  events: readonly LogEvent[],
  charts: readonly DigestedChart[],
): { readonly events: readonly LogEvent[]; readonly charts: readonly DigestedChart[] } {
  const contents = Object.values(files);
  const sent = idsIn(contents);
  const digests = new Set(contents.flatMap((file) => file.charts.map(([, digest]) => digest)));
  return {
    events: events.filter((event) => !has(sent, event)),
    charts: charts.filter(({ digest }) => !digests.has(digest)),
  };
}

export interface SmallFiles {
  readonly names: readonly string[];
  readonly ids: EventIds;
}

/**
 * Returns the small files of one writer; null if there are too few to compact.
 * @param full a file with at least this many events is not small
 */
export function filesToCompact(
  files: Files,
  writer: string,
  charts: readonly DigestedChart[],
  full: number,
): SmallFiles | null {
  const here = new Set(charts.map(({ document }) => document.id));
  const small = Object.entries(files).filter(
    ([name, file]) =>
      isBy(writer, name) &&
      countEvents(file) < full &&
      // A chart that was removed on this device may not have reached the other devices yet.
      file.charts.every(([id]) => here.has(id)),
  );
  if (small.length <= MOST_SMALL) return null;
  return { names: small.map(([name]) => name), ids: idsIn(small.map(([, file]) => file)) };
}

function countEvents({ runs }: FileContents): number {
  return runs.reduce((sum, [, from, to]) => sum + to - from + 1, 0);
}

/** Returns whether the new files have all events of the old ones, which may then be removed. */
export function canReplace(old: EventIds, files: readonly FileContents[]): boolean {
  return covers(idsIn(files), old);
}
