/** Laws for everything that comes from outside. */

import { isDeepStrictEqual } from 'node:util';
import { law } from './target.ts';

const BASES = [Object, Array, Function, String, Number, Boolean, Map, Set, Promise, Date, RegExp];

/** An object's own keys and values. */
function shapeOf(object: object): ReadonlyMap<PropertyKey, unknown> {
  return new Map(
    Reflect.ownKeys(object).map((key) => [
      key,
      Object.getOwnPropertyDescriptor(object, key)?.value,
    ]),
  );
}

/** Returns a check that the built-in prototypes are unchanged since this call. */
export function watchPrototypes(): () => void {
  const before = BASES.map(({ prototype }) => shapeOf(prototype));
  return () => {
    for (const [n, base] of BASES.entries()) {
      law(
        isDeepStrictEqual(shapeOf(base.prototype), before[n]),
        `${base.name}.prototype was changed`,
      );
    }
  };
}

const POLLUTED = ['__proto__', 'constructor', 'prototype'];
const PLAIN: readonly unknown[] = [Object.prototype, Array.prototype, Map.prototype, Set.prototype];

/**
 * Consists only of plain objects, lists, maps and sets, without keys that JavaScript treats specially.
 * `opaque`: keys of unread records, which may hold anything.
 */
export function clean(value: unknown, opaque: readonly string[] = []): void {
  if (typeof value === 'number') law(!Number.isNaN(value), 'NaN');
  if (typeof value !== 'object' || value === null) return;
  law(PLAIN.includes(Object.getPrototypeOf(value)), 'an object of another class');
  if (value instanceof Map || value instanceof Set) clean([...value], opaque);
  for (const [key, inner] of Object.entries(value)) {
    law(!POLLUTED.includes(key), 'a key that JavaScript treats specially', key);
    if (!opaque.includes(key)) clean(inner, opaque);
  }
}

/** Equal as far as JSON can tell: it has no −0. */
export function same(a: unknown, b: unknown, what: string): void {
  law(isDeepStrictEqual(a, b) || isDeepStrictEqual(oneZero(a), oneZero(b)), what);
}

function oneZero(value: unknown): unknown {
  if (typeof value === 'number') return value + 0;
  if (Array.isArray(value)) return value.map(oneZero);
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, oneZero(inner)]));
}
