/**
 * Sets of event ids. They are stored as ranges ("runs") of consecutive numbers for each device. A
 * year's answers make only a few runs.
 */

import type { LogEvent } from '../scheduler/index.ts';

/** A range of consecutive numbers of one device's events. Both ends are included. */
export type Run = readonly [device: string, from: number, to: number];

export interface EventIds {
  /** The runs by device, in ascending order, with a gap between each run and the next. */
  readonly runs: ReadonlyMap<string, readonly (readonly [from: number, to: number])[]>;
}

export function eventIds(runs: Iterable<Run>): EventIds {
  const byDevice = new Map<string, [number, number][]>();
  for (const [device, from, to] of runs) {
    const own = byDevice.get(device);
    if (own) own.push([from, to]);
    else byDevice.set(device, [[from, to]]);
  }
  return { runs: new Map([...byDevice].map(([device, own]) => [device, merged(own)])) };
}

function merged(runs: [number, number][]): readonly (readonly [number, number])[] {
  const done: [number, number][] = [];
  for (const [from, to] of runs.sort((a, b) => a[0] - b[0])) {
    const last = done.at(-1);
    if (last && from <= last[1] + 1) last[1] = Math.max(last[1], to);
    else done.push([from, to]);
  }
  return done;
}

export function runsOf(events: readonly Pick<LogEvent, 'device' | 'seq'>[]): readonly Run[] {
  return runsIn(eventIds(events.map(({ device, seq }): Run => [device, seq, seq])));
}

export function runsIn({ runs }: EventIds): readonly Run[] {
  return [...runs].flatMap(([device, own]) => own.map(([from, to]): Run => [device, from, to]));
}

export function has(
  { runs }: EventIds,
  { device, seq }: Pick<LogEvent, 'device' | 'seq'>,
): boolean {
  const own = runs.get(device) ?? [];
  let [low, high] = [0, own.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((own[middle]?.[1] ?? 0) < seq) low = middle + 1;
    else high = middle;
  }
  return (own[low]?.[0] ?? Number.POSITIVE_INFINITY) <= seq;
}

/** Returns whether the set `whole` has every id that `part` has. */
export function covers(whole: EventIds, part: EventIds): boolean {
  return runsIn(part).every(([device, from, to]) =>
    (whole.runs.get(device) ?? []).some(([first, last]) => first <= from && to <= last),
  );
}
