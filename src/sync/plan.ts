/** What a sync has to do, from what the folder lists and what is known of its files. Pure. */

import type { LogEvent } from '../scheduler/index.ts';
import { covers, type Held, has, heldBy, type Run } from './held.ts';
import { isBy, isSegmentName } from './names.ts';
import type { DigestedChart } from './segments.ts';
import type { InFile } from './state.ts';

export type Files = Readonly<Record<string, InFile>>;

/** Small files of one writer at most, before they are made one. */
export const MOST_SMALL = 16;

export function heldIn(files: Files): Held {
  return heldBy(Object.values(files).flatMap(({ runs }) => runs));
}

/** Files that are there and not known, in order; and what is known without those that are gone. */
export function compare(
  listed: readonly string[],
  files: Files,
): { readonly fresh: readonly string[]; readonly still: Files; readonly gone: Files } {
  const names = new Set(listed);
  const known = Object.entries(files);
  return {
    fresh: listed.filter((name) => isSegmentName(name) && !Object.hasOwn(files, name)),
    still: Object.fromEntries(known.filter(([name]) => names.has(name))),
    gone: Object.fromEntries(known.filter(([name]) => !names.has(name))),
  };
}

/**
 * How many events were in files that are gone and are in none of those that are there. A device that
 * makes one file of many leaves none; a folder that was set back, or emptied, does.
 */
export function lostWith(gone: Files, now: Files): number {
  const there = heldIn(now);
  let lost = 0;
  for (const [device, from, to] of heldIn(gone).runs.size > 0 ? runsIn(gone) : [])
    for (let seq = from; seq <= to; seq++) if (!has(there, { device, seq })) lost += 1;
  return lost;
}

function runsIn(files: Files): readonly Run[] {
  const { runs } = heldIn(files);
  return [...runs].flatMap(([device, own]) => own.map(([from, to]): Run => [device, from, to]));
}

/** What is here and not in the folder. */
export function lacking(
  files: Files,
  events: readonly LogEvent[],
  charts: readonly DigestedChart[],
): { readonly events: readonly LogEvent[]; readonly charts: readonly DigestedChart[] } {
  const held = heldIn(files);
  const there = new Set(Object.values(files).flatMap((one) => one.charts.map(([, of]) => of)));
  return {
    events: events.filter((event) => !has(held, event)),
    charts: charts.filter(({ digest }) => !there.has(digest)),
  };
}

/** How many small files a writer has so far is what tells when they are made one. */
export function toCompact(
  files: Files,
  writer: string,
  charts: readonly DigestedChart[],
  full: number,
): { readonly names: readonly string[]; readonly holds: Held } | null {
  const here = new Set(charts.map(({ document }) => document.id));
  const small = Object.entries(files).filter(
    ([name, file]) =>
      isBy(writer, name) &&
      countOf(file) < full &&
      // A chart that was removed here may not have reached the other devices yet.
      file.charts.every(([id]) => here.has(id)),
  );
  if (small.length <= MOST_SMALL) return null;
  return {
    names: small.map(([name]) => name),
    holds: heldBy(small.flatMap(([, { runs }]) => runs)),
  };
}

export function countOf({ runs }: InFile): number {
  return runs.reduce((sum, [, from, to]) => sum + to - from + 1, 0);
}

/** Only what is safely in the new files may go with the old ones. */
export function replaces(now: readonly InFile[], old: Held): boolean {
  return covers(heldBy(now.flatMap(({ runs }) => runs)), old);
}
