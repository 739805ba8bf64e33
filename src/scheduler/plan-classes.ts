/** Weights in a few classes, so that a table of worths serves many items. */

export interface Classes {
  /** By item. */
  readonly of: Uint8Array;
  /** The weight that stands for a class. */
  readonly weights: readonly number[];
}

const MOST = 5;

/** Weights in one class differ by about so much where few classes will do. */
const APART = 1.35;

/** Evenly spaced in the logarithm between the least and the greatest; 0 goes with the least. */
export function classesOf(weights: Float64Array): Classes {
  let [least, most] = [Number.POSITIVE_INFINITY, 0];
  for (const weight of weights) {
    if (weight > 0) least = Math.min(least, weight);
    most = Math.max(most, weight);
  }
  if (most === 0) return { of: new Uint8Array(weights.length), weights: [1] };
  const span = Math.log(most / least);
  const count = Math.min(MOST, 1 + Math.ceil(span / Math.log(APART) - 1e-9));
  const step = count > 1 ? span / (count - 1) : 1;
  const of = Uint8Array.from(weights, (weight) =>
    weight > 0 ? Math.round(Math.log(weight / least) / step) : 0,
  );
  return { of, weights: Array.from({ length: count }, (_, n) => least * Math.exp(n * step)) };
}
