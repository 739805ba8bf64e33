/** A request to the planner in columns, with items by number instead of by id. */

import type { MemoryModel } from '../memory/memory.ts';
import { type MemoryGrid, memoryGrid, type Place } from './grid.ts';
import { type Horizon, horizonOf } from './horizon.ts';
import type { PlanItem, PlanRequest } from './request.ts';

export interface Stock {
  readonly items: readonly PlanItem[];
  /** Where each item's memory lies on the grid; null before its first answer. */
  readonly places: readonly (Place | null)[];
  /** Days since the last answer, as of today. */
  readonly ages: Int32Array;
  readonly holdsToday: Float64Array;
  /** Hold on the day that counts if it is not asked again. */
  readonly holds: Float64Array;
  /** By item: the items that must be right before it; null if one is not in the request. */
  readonly after: readonly (readonly number[] | null)[];
  /** By item: the number of its sibling group. */
  readonly group: Int32Array;
  /** Sibling groups of which an item was answered today already. */
  readonly doneToday: ReadonlySet<number>;
  /** Weights as given: of items, and of those that count as lines. */
  readonly weights: Float64Array;
  readonly counted: readonly number[];
  readonly interpolated: readonly Interpolated[];
}

export interface Interpolated {
  readonly weight: number;
  /** Items whose holds multiply: two anchors and a skill. Null if one is not in the request. */
  readonly needs: readonly [number, number, number] | null;
}

export interface Planning {
  readonly stock: Stock;
  readonly grid: MemoryGrid;
  readonly horizon: Horizon;
}

export function planningOf(request: PlanRequest, model: MemoryModel): Planning {
  const { items, today } = request;
  const horizon = horizonOf(request.day - today);
  const ages = Int32Array.from(items, (item) => ageOf(item, today));
  const grid = memoryGrid(model, horizon.days + oldestOf({ ages }));
  const numbers = new Map(items.map(({ id }, n) => [id, n]));
  const groups = new Map<string, number>();
  for (const { sibling } of items) if (!groups.has(sibling)) groups.set(sibling, groups.size);
  const group = Int32Array.from(items, ({ sibling }) => groups.get(sibling) as number);
  const holdsIn = (days: number) =>
    Float64Array.from(items, ({ memory }, n) =>
      memory ? model.recall(memory, (ages[n] as number) + days) : 0,
    );
  const stock: Stock = {
    items,
    places: items.map(({ memory }) => (memory ? grid.place(memory) : null)),
    ages,
    holdsToday: holdsIn(0),
    holds: holdsIn(horizon.days),
    after: items.map(({ after }) => numbersOf(after, numbers)),
    group,
    doneToday: new Set([...group].filter((_, n) => items[n]?.memory && ages[n] === 0)),
    weights: Float64Array.from(items, ({ weight }) => (weight > 0 && weight < 1e9 ? weight : 0)),
    counted: numbersOf(
      request.counted.filter((id) => numbers.has(id)),
      numbers,
    ) as readonly number[],
    interpolated: request.interpolated.map(({ anchors, skill, weight }) => ({
      weight: weight > 0 && weight < 1e9 ? weight : 0,
      needs: numbersOf([...anchors, skill], numbers) as Interpolated['needs'],
    })),
  };
  return { stock, grid, horizon };
}

/** An answer dated after today, by a clock that was ahead, counts as today's. */
function ageOf({ memory, lastDay }: PlanItem, today: number): number {
  return memory ? Math.max(0, Math.floor(today - lastDay) || 0) : 0;
}

function numbersOf(
  ids: readonly string[],
  numbers: ReadonlyMap<string, number>,
): readonly number[] | null {
  const found = ids.map((id) => numbers.get(id) ?? -1);
  return found.includes(-1) ? null : found;
}

/** Most days since the last answer to an item. */
export function oldestOf({ ages }: Pick<Stock, 'ages'>): number {
  return ages.reduce((most, age) => Math.max(most, age), 0);
}

/**
 * Weights of items, with their share of the interpolated lines that need them: what one more right
 * answer to the item on the day would win, which is the line's weight times the other two holds.
 */
export function weightsWithInterpolated(
  { weights, interpolated }: Stock,
  holds: Float64Array,
): Float64Array {
  const all = Float64Array.from(weights);
  const hold = (n: number): number => Math.max(HOPED, holds[n] as number);
  for (const { needs, weight } of interpolated) {
    if (!needs) continue;
    const [a, b, skill] = needs;
    all[a] = (all[a] as number) + weight * hold(b) * hold(skill);
    all[b] = (all[b] as number) + weight * hold(a) * hold(skill);
    all[skill] = (all[skill] as number) + weight * hold(a) * hold(b);
  }
  return all;
}

/** The least hold of an item not begun; with 0, three that need each other would never begin. */
const HOPED = 0.3;
