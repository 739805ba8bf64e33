/** Sorts weights into a few classes, so that one table of worths serves many items. */

export interface Classes {
  /** By item. */
  readonly of: Uint8Array;
  /** The weight that stands for a class. */
  readonly weights: readonly number[];
}

const MOST = 7;

/** Weights in one class differ by no more than this factor, if there are not too many classes. */
const WIDTH = 1.3;

interface Class {
  readonly least: number;
  most: number;
}

/** One class for each weight, or for weights close together; weight 0 is in the least. */
export function classesOf(weights: Float64Array): Classes {
  const sorted = weights.filter((weight) => weight > 0).sort();
  if (sorted.length === 0) return { of: new Uint8Array(weights.length), weights: [1] };
  let width = WIDTH;
  let classes = classesWithin(sorted, width);
  while (classes.length > MOST) {
    width *= 1.2;
    classes = classesWithin(sorted, width);
  }
  const of = Uint8Array.from(weights, (weight) =>
    Math.max(
      0,
      classes.findLastIndex(({ least }) => least <= weight),
    ),
  );
  return { of, weights: classes.map(({ least, most }) => Math.sqrt(least * most)) };
}

function classesWithin(sorted: Float64Array, width: number): readonly Class[] {
  const classes: Class[] = [];
  for (const weight of sorted) {
    const last = classes.at(-1);
    if (last && weight <= width * last.least) last.most = weight;
    else classes.push({ least: weight, most: weight });
  }
  return classes;
}
