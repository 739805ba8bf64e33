/**
 * A list that is a value and yet goes on by one without being copied: each answer makes a new state
 * of the log, and of 100,000 events a copy takes longer than all the rest.
 */

/** What is read of it: like an array, which it can be made one of. */
export interface Listed<T> extends Iterable<T> {
  readonly length: number;
  /** From the end if below 0. */
  readonly at: (n: number) => T | undefined;
}

/** The list and one more; the list stays as it is. */
export function oneMore<T>(list: Listed<T>, item: T): Listed<T> {
  return list instanceof Grown ? list.and(item) : new Grown(list, [item], 1);
}

class Grown<T> implements Listed<T> {
  /**
   * @param under what it grew from
   * @param more what came since; lists that go on from each other share it
   * @param count how much of `more` is this list's
   */
  constructor(
    readonly under: Listed<T>,
    readonly more: T[],
    readonly count: number,
  ) {}

  get length(): number {
    return this.under.length + this.count;
  }

  at(n: number): T | undefined {
    const place = n < 0 ? this.length + n : n;
    const since = place - this.under.length;
    if (since < 0) return place < 0 ? undefined : this.under.at(place);
    return since < this.count ? this.more[since] : undefined;
  }

  and(item: T): Grown<T> {
    // Another list has gone on from the same one.
    const more = this.more.length === this.count ? this.more : this.more.slice(0, this.count);
    more.push(item);
    return new Grown(this.under, more, this.count + 1);
  }

  *[Symbol.iterator](): Iterator<T> {
    yield* this.under;
    for (let n = 0; n < this.count; n++) yield this.more[n] as T;
  }
}
