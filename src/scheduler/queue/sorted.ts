/** Lists that are kept in order while single entries come and go. */

type Order<T> = (a: T, b: T) => number;

/** Where an entry is, or would be. */
function placeIn<T>(list: readonly T[], entry: T, order: Order<T>): number {
  let [low, high] = [0, list.length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (order(list[middle] as T, entry) < 0) low = middle + 1;
    else high = middle;
  }
  return low;
}

export function insert<T>(list: T[], entry: T, order: Order<T>): void {
  list.splice(placeIn(list, entry, order), 0, entry);
}

/** @throws Error if it is not there: the list is out of order */
export function remove<T>(list: T[], entry: T, order: Order<T>): void {
  const at = placeIn(list, entry, order);
  if (list[at] !== entry) throw new Error(`an entry is not at place ${at} of ${list.length}`);
  list.splice(at, 1);
}
