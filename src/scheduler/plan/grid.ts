/**
 * Memory on a grid, for planning: stabilities evenly spaced in the logarithm, times difficulties. A
 * node is `s · DIFFICULTIES + d`. An answer leads from a node to a place between four others. Their
 * weights by distance are read as chances to land on each, so a course from node to node has the
 * mean of the exact memory.
 */

import type { Memory, MemoryModel } from '../memory/memory.ts';
import { FIRST_OUTCOMES, RIGHT_OUTCOMES } from './outcomes.ts';

const STABILITIES = 20;
const DIFFICULTIES = 3;

/** Difficulties run from 1 to 10. */
const APART = 9 / (DIFFICULTIES - 1);

/** The least stability on the grid, days: below that of a line first missed and then right. */
const LEAST = 0.08;

export const NODES = STABILITIES * DIFFICULTIES;

/** Between nodes `at`, `at + 1` (next difficulty) and those of the next stability. */
export interface Place {
  readonly at: number;
  /** Fractions of the distance to the next stability and difficulty, 0–1. */
  readonly s: number;
  readonly d: number;
}

export interface Landing extends Place {
  readonly chance: number;
  /** Answers it took. */
  readonly answers: number;
}

export interface MemoryGrid {
  /** The days since an answer that have a column, ascending from 0. */
  readonly ages: readonly number[];
  /** By age and node (`age · NODES + node`): recall, and where a right answer and a miss lead. */
  readonly recall: Float64Array;
  readonly right: Places;
  /** After a miss and the right answer to the same question later that day. */
  readonly missed: Places;
  readonly first: readonly Landing[];
  readonly place: (memory: Memory) => Place;
}

/** Places in columns. */
export interface Places {
  readonly at: Int32Array;
  readonly s: Float64Array;
  readonly d: Float64Array;
}

/** The last grid: consecutive plans have the same weights and about the same days. */
let made: { readonly key: string; readonly grid: MemoryGrid } | null = null;

/** @param oldest most days since an answer that can occur */
export function memoryGrid(model: MemoryModel, oldest: number): MemoryGrid {
  const rung = 2 ** Math.ceil(Math.log2(Math.max(16, oldest)));
  const key = `${rung} ${model.weights}`;
  if (made?.key !== key) made = { key, grid: gridTo(model, rung) };
  return made.grid;
}

function gridTo(model: MemoryModel, oldest: number): MemoryGrid {
  const ages = agesTo(oldest);
  const top = Math.log(Math.max(500, 40 * oldest));
  const bottom = Math.log(LEAST);
  const spacing = (top - bottom) / (STABILITIES - 1);
  const place = (memory: Memory): Place =>
    placeAt((Math.log(memory.stability) - bottom) / spacing, (memory.difficulty - 1) / APART);
  const node = (n: number): Memory => ({
    stability: Math.exp(bottom + Math.floor(n / DIFFICULTIES) * spacing),
    difficulty: 1 + APART * (n % DIFFICULTIES),
  });
  const size = ages.length * NODES;
  const [recall, right, missed] = [new Float64Array(size), columns(size), columns(size)];
  ages.forEach((age, a) => {
    for (let n = 0; n < NODES; n++) {
      const cell = a * NODES + n;
      const memory = node(n);
      recall[cell] = model.recall(memory, age);
      put(right, cell, place(afterRight(model, memory, age)));
      put(missed, cell, place(afterMiss(model, memory, age)));
    }
  });
  return { ages, recall, right, missed, first: firstLandings(model, place), place };
}

/** The mean over the right outcomes, geometric for stability. */
function afterRight(model: MemoryModel, memory: Memory, days: number): Memory {
  let [log, difficulty] = [0, 0];
  for (const { outcome, share } of RIGHT_OUTCOMES) {
    const next = model.remember(memory, days, outcome);
    log += share * Math.log(next.stability);
    difficulty += share * next.difficulty;
  }
  return { stability: Math.exp(log), difficulty };
}

function afterMiss(model: MemoryModel, memory: Memory | null, days: number): Memory {
  return model.remember(model.remember(memory, days, 'off'), 0, 'pocketed');
}

function firstLandings(model: MemoryModel, place: (memory: Memory) => Place): readonly Landing[] {
  return FIRST_OUTCOMES.map(({ outcome, share }) =>
    outcome === 'off'
      ? { ...place(afterMiss(model, null, 0)), chance: share, answers: 2 }
      : { ...place(model.remember(null, 0, outcome)), chance: share, answers: 1 },
  );
}

/** Every day up to eight, then a quarter further each time. */
function agesTo(oldest: number): readonly number[] {
  const ages = [0, 1];
  for (
    let age = 2;
    (ages.at(-1) as number) < oldest;
    age = Math.ceil(Math.max(age + 1, 1.25 * age))
  )
    ages.push(age);
  return ages;
}

function placeAt(s: number, d: number): Place {
  const [low, under] = [below(s, STABILITIES), below(d, DIFFICULTIES)];
  return { at: low * DIFFICULTIES + under, s: part(s - low), d: part(d - under) };
}

function below(x: number, count: number): number {
  return Math.max(0, Math.min(count - 2, Math.floor(x)));
}

function part(x: number): number {
  return Math.max(0, Math.min(1, x));
}

function columns(size: number): Places {
  return { at: new Int32Array(size), s: new Float64Array(size), d: new Float64Array(size) };
}

function put(places: Places, cell: number, { at, s, d }: Place): void {
  places.at[cell] = at;
  places.s[cell] = s;
  places.d[cell] = d;
}

/** Interpolates a value given at nodes, from `base` on, at a place. */
export function valueAt(values: Float64Array, base: number, at: number, s: number, d: number) {
  const n = base + at;
  const low = mix(values[n] as number, values[n + 1] as number, d);
  return mix(low, mix(at4(values, n), at4(values, n + 1), d), s);
}

function at4(values: Float64Array, n: number): number {
  return values[n + DIFFICULTIES] as number;
}

function mix(a: number, b: number, part: number): number {
  return a + part * (b - a);
}

/** Draws one of the four nodes around a place, with chances by distance. */
export function landOn(at: number, s: number, d: number, dice: () => number): number {
  return at + (dice() < s ? DIFFICULTIES : 0) + (dice() < d ? 1 : 0);
}

/** The last age of the grid not above the given days, and how far they are on to the next, 0–1. */
export function ageAt(
  ages: readonly number[],
  days: number,
): { readonly at: number; readonly above: number } {
  const next = ages.findIndex((age) => age > days);
  const at = (next < 0 ? ages.length - 1 : Math.max(1, next)) - 1;
  const [low, high] = [ages[at] as number, ages[at + 1] as number];
  return { at, above: Math.max(0, Math.min(1, (days - low) / (high - low))) };
}

/** Interpolates a table by age and node. */
export function atAge(
  { ages }: MemoryGrid,
  table: Float64Array,
  { at, s, d }: Place,
  days: number,
): number {
  const age = ageAt(ages, days);
  const low = valueAt(table, age.at * NODES, at, s, d);
  return low + age.above * (valueAt(table, (age.at + 1) * NODES, at, s, d) - low);
}
