/** Sets of ids of events: of each device, the runs of its numbers. A year's answers are a few runs. */

import type { LogEvent } from '../scheduler/index.ts';

/** A device's numbers from one to another, both among them. */
export type Run = readonly [device: string, from: number, to: number];

export interface Held {
  /** By device; in order, and none touches the next. */
  readonly runs: ReadonlyMap<string, readonly (readonly [from: number, to: number])[]>;
}

export const NOTHING: Held = { runs: new Map() };

export function heldBy(runs: Iterable<Run>): Held {
  const byDevice = new Map<string, [number, number][]>();
  for (const [device, from, to] of runs) {
    const own = byDevice.get(device);
    if (own) own.push([from, to]);
    else byDevice.set(device, [[from, to]]);
  }
  return { runs: new Map([...byDevice].map(([device, own]) => [device, joined(own)])) };
}

function joined(runs: [number, number][]): readonly (readonly [number, number])[] {
  const done: [number, number][] = [];
  for (const [from, to] of runs.sort((a, b) => a[0] - b[0])) {
    const last = done.at(-1);
    if (last && from <= last[1] + 1) last[1] = Math.max(last[1], to);
    else done.push([from, to]);
  }
  return done;
}

export function runsOf(events: readonly Pick<LogEvent, 'device' | 'seq'>[]): readonly Run[] {
  return listed(heldBy(events.map(({ device, seq }): Run => [device, seq, seq])));
}

export function listed({ runs }: Held): readonly Run[] {
  return [...runs].flatMap(([device, own]) => own.map(([from, to]): Run => [device, from, to]));
}

export function has({ runs }: Held, { device, seq }: Pick<LogEvent, 'device' | 'seq'>): boolean {
  const own = runs.get(device) ?? [];
  let [low, high] = [0, own.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if ((own[middle]?.[1] ?? 0) < seq) low = middle + 1;
    else high = middle;
  }
  return (own[low]?.[0] ?? Number.POSITIVE_INFINITY) <= seq;
}

/** Is all of one in the other. */
export function covers(whole: Held, part: Held): boolean {
  return listed(part).every(([device, from, to]) =>
    (whole.runs.get(device) ?? []).some(([first, last]) => first <= from && to <= last),
  );
}
