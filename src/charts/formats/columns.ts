/** Encodes a chart's lines as columns of differences, which are short and compress well. */

import { SPEEDS } from '../../table/index.ts';
import type { ChartState } from '../document/document.ts';
import type { PatternId } from '../document/patterns.ts';

export type Column = readonly (number | null)[];

export type Entry = { readonly pattern: PatternId; readonly start: number | null };

/** Returns the largest unit that divides all starts and numbers of a state, in ten-thousandths. */
export function unitOf({ measured, priorities, remarks, levels }: ChartState): number {
  const entries: readonly Entry[] = [
    ...measured,
    ...priorities,
    ...remarks,
    ...(levels?.lines ?? []),
  ];
  const all = [
    ...entries.map(({ start }) => start ?? 0),
    ...measured.flatMap((line) => SPEEDS.map((speed) => line[speed] ?? 0)),
  ];
  return all.reduce<number>(greatestDivisor, 0) || 1;
}

function greatestDivisor(a: number, b: number): number {
  return b === 0 ? a : greatestDivisor(b, a % b);
}

/** Splits entries into groups of consecutive entries with the same pattern. */
export function runsOf<T extends Entry>(entries: readonly T[]): readonly (readonly [T, ...T[]])[] {
  const found: [T, ...T[]][] = [];
  for (const entry of entries) {
    const last = found.at(-1);
    if (last?.[0].pattern === entry.pattern) last.push(entry);
    else found.push([entry]);
  }
  return found;
}

export function startsIn(entries: readonly Entry[], unit: number): Column {
  return differences(
    entries.map(({ start }) => start),
    unit,
  );
}

/** Returns each value minus the last value before it that is not null. */
export function differences(values: Column, unit: number): Column {
  let last = 0;
  return values.map((value) => {
    if (value === null) return null;
    const step = (value - last) / unit;
    last = value;
    return step;
  });
}

/** Inverts `differences`. */
export function sums(steps: Column, unit: number): Column {
  let last = 0;
  return steps.map((step) => {
    if (step === null) return null;
    last += step * unit;
    return last;
  });
}
