/**
 * Random numbers from a seed. The same seed gives the same questions on every device and in every
 * version, so that two players can share a drill. For this the generator is written out here.
 */

import type { Decimal } from '../charts/index.ts';

export interface Dice {
  /** Returns the next random number x, 0 ≤ x < 1. */
  readonly next: () => number;
  /**
   * Returns a random item of the list.
   * @throws if the list is empty
   */
  readonly pick: <T>(list: readonly T[]) => T;
  /** Returns a shuffled copy (Fisher & Yates). */
  readonly shuffle: <T>(list: readonly T[]) => readonly T[];
}

/**
 * Creates dice by the SplitMix method with 32 bits (Steele, Lea & Flood 2014). The constants are
 * those of MurmurHash3's finalizer.
 */
export function createDice(seed: number): Dice {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x9e3779b9) >>> 0;
    let z = state;
    z = Math.imul(z ^ (z >>> 16), 0x85ebca6b);
    z = Math.imul(z ^ (z >>> 13), 0xc2b2ae35);
    return ((z ^ (z >>> 16)) >>> 0) / 2 ** 32;
  };
  const pick = <T>(list: readonly T[]): T => {
    if (list.length === 0) throw new RangeError('the list to pick from is empty');
    return list[Math.floor(next() * list.length)] as T;
  };
  const shuffle = <T>(list: readonly T[]): readonly T[] => {
    const copy = [...list];
    for (let last = copy.length - 1; last > 0; last--) {
      const other = Math.floor(next() * (last + 1));
      [copy[last], copy[other]] = [copy[other] as T, copy[last] as T];
    }
    return copy;
  };
  return { next, pick, shuffle };
}

/** Returns the 32-bit FNV-1a hash (Fowler, Noll & Vo) of the UTF-16 units of a text. */
export function hashOf(text: string): number {
  let value = 0x811c9dc5;
  for (let n = 0; n < text.length; n++) {
    value = Math.imul(value ^ text.charCodeAt(n), 0x01000193);
  }
  return value >>> 0;
}

/** Returns the multiples of a step strictly between two numbers, in ascending order. */
export function multiplesBetween(from: Decimal, to: Decimal, step: Decimal): readonly Decimal[] {
  const first = Math.floor(from / step) + 1;
  const count = Math.max(0, Math.ceil(to / step) - first);
  return Array.from({ length: count }, (_, n) => ((first + n) * step) as Decimal);
}
