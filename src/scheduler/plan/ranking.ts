/**
 * Sorts items by pull, greatest first, in time proportional to their number. Pulls that differ by
 * less than 6 % count as equal: such items stay in the order in which they came.
 */

const BINS = 256;

/** A float's exponent and first four digits; from 2^-8 on. */
const SHIFT = 19;
const FIRST_BIN = (127 - 8) << 4;

export interface Ranking {
  readonly clear: () => void;
  /** @param pull above 0 */
  readonly add: (item: number, pull: number) => void;
  /** Items in order; valid until `clear`. */
  readonly sorted: () => Int32Array;
  readonly pull: (item: number) => number;
}

/** @param most items */
export function createRanking(most: number): Ranking {
  const [items, bins, order] = [new Int32Array(most), new Int32Array(most), new Int32Array(most)];
  const pulls = new Float32Array(most);
  const counts = new Int32Array(BINS + 1);
  const float = new Float32Array(1);
  const bits = new Uint32Array(float.buffer);
  let count = 0;
  return {
    clear: () => {
      count = 0;
    },
    add: (item, pull) => {
      float[0] = pull;
      const bin = ((bits[0] as number) >>> SHIFT) - FIRST_BIN;
      items[count] = item;
      bins[count] = BINS - 1 - Math.max(0, Math.min(BINS - 1, bin));
      pulls[item] = pull;
      count++;
    },
    sorted: () => {
      counts.fill(0);
      for (let n = 0; n < count; n++) add1(counts, (bins[n] as number) + 1);
      for (let bin = 1; bin < BINS; bin++)
        counts[bin] = (counts[bin] as number) + (counts[bin - 1] as number);
      for (let n = 0; n < count; n++) order[add1(counts, bins[n] as number)] = items[n] as number;
      return order.subarray(0, count);
    },
    pull: (item) => pulls[item] as number,
  };
}

/** @returns the count before it grew */
function add1(counts: Int32Array, at: number): number {
  const before = counts[at] as number;
  counts[at] = before + 1;
  return before;
}
