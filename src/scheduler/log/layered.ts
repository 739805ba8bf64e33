/**
 * A map that can be taken on without copying it: what changed since lies over what was. The log's
 * state is a value, so each answer makes a new one, and with 100,000 cards a copy takes too long.
 */

/** What is needed of a map that is being written. */
export interface Written<V> extends ReadonlyMap<string, V> {
  readonly set: (key: string, value: V) => unknown;
  readonly delete: (key: string) => boolean;
}

/** With more changes than this the layers are made one. */
const MOST = 500;

/** A map to write on, which leaves the one that it comes from as it is. */
export function fork<V>(map: ReadonlyMap<string, V>): Written<V> {
  if (!(map instanceof Layered)) return new Layered(map, new Map());
  if (map.changes.size > MOST) return new Layered(new Map(map), new Map());
  return new Layered(map.under, new Map(map.changes));
}

const GONE = Symbol('gone');

class Layered<V> implements Written<V> {
  size: number;

  constructor(
    readonly under: ReadonlyMap<string, V>,
    readonly changes: Map<string, V | typeof GONE>,
  ) {
    this.size = under.size;
    for (const [key, value] of changes) {
      if (value === GONE) this.size -= 1;
      else if (!under.has(key)) this.size += 1;
    }
  }

  get(key: string): V | undefined {
    const value = this.changes.get(key);
    if (value === undefined && !this.changes.has(key)) return this.under.get(key);
    return value === GONE ? undefined : (value as V);
  }

  has(key: string): boolean {
    const value = this.changes.get(key);
    if (value === undefined && !this.changes.has(key)) return this.under.has(key);
    return value !== GONE;
  }

  set(key: string, value: V): void {
    if (!this.has(key)) this.size += 1;
    this.changes.set(key, value);
  }

  delete(key: string): boolean {
    if (!this.has(key)) return false;
    this.size -= 1;
    if (this.under.has(key)) this.changes.set(key, GONE);
    else this.changes.delete(key);
    return true;
  }

  forEach(take: (value: V, key: string, map: ReadonlyMap<string, V>) => void): void {
    for (const [key, value] of this) take(value, key, this);
  }

  *entries(): MapIterator<[string, V]> {
    for (const [key, value] of this.under) {
      const changed = this.changes.get(key);
      if (changed === undefined) yield [key, value];
      else if (changed !== GONE) yield [key, changed];
    }
    for (const [key, value] of this.changes)
      if (value !== GONE && !this.under.has(key)) yield [key, value];
  }

  *keys(): MapIterator<string> {
    for (const [key] of this.entries()) yield key;
  }

  *values(): MapIterator<V> {
    for (const [, value] of this.entries()) yield value;
  }

  [Symbol.iterator](): MapIterator<[string, V]> {
    return this.entries();
  }
}
