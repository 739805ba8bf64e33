/** Spreads places on a line: each as close to its wish as its neighbors allow. */

interface Block {
  /** Sum of wishes, each less the gaps before it. */
  sum: number;
  readonly first: number;
  count: number;
}

/**
 * Least squares under minimal distances, by pooling neighbors that collide (isotonic regression; Ayer
 * et al. 1955).
 * @param wanted in order
 * @param gaps least distance from each to the next; the last is ignored
 * @param range everything is moved into it, from the left if there is too little room
 */
export function spread(
  wanted: readonly number[],
  gaps: readonly number[],
  [low, high]: readonly [number, number],
): readonly number[] {
  const before = sumsBefore(gaps);
  const blocks: Block[] = [];
  for (const [n, wish] of wanted.entries()) {
    let block: Block = { sum: wish - (before[n] as number), first: n, count: 1 };
    for (let last = blocks.at(-1); last && mean(last) > mean(block); last = blocks.at(-1)) {
      blocks.pop();
      block = { sum: last.sum + block.sum, first: last.first, count: last.count + block.count };
    }
    blocks.push(block);
  }
  const least = low;
  const most = high - (before[wanted.length - 1] ?? 0);
  return blocks.flatMap((block) =>
    Array.from({ length: block.count }, (_, n) => {
      const shift = Math.max(least, Math.min(most, mean(block)));
      return shift + (before[block.first + n] as number);
    }),
  );
}

/** The sum of the gaps before each place. */
function sumsBefore(gaps: readonly number[]): readonly number[] {
  let sum = 0;
  return [0, ...gaps].map((gap) => {
    sum += gap;
    return sum;
  });
}

function mean({ sum, count }: Block): number {
  return sum / count;
}
