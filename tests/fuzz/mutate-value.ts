/** Mutations of values that structured cloning supports. */

import type { Dice } from '../../src/cards/index.ts';
import { KEYS, NUMBERS, nested, TEXTS } from './hostile.ts';

/** The place of a value in an object, a list or a map. */
interface Part {
  readonly value: unknown;
  readonly put: (value: unknown) => void;
  readonly drop: () => void;
}

/** Most parts examined: the first ones of a long list are enough. */
const MOST = 3000;

export function mutatedValue(original: unknown, other: unknown, dice: Dice): unknown {
  const root: { value?: unknown } = { value: structuredClone(original) };
  for (let n = dice.pick([1, 1, 1, 2, 3, 6]); n > 0; n--) {
    const parts = partsOf(root);
    const part = parts[Math.floor(dice.next() ** 1.5 * parts.length)];
    // Nothing is left.
    if (!part) break;
    change(part, parts, other, dice);
  }
  return root.value;
}

function change(part: Part, parts: readonly Part[], other: unknown, dice: Dice): void {
  const kind = dice.next();
  if (kind < 0.15) part.drop();
  else if (kind < 0.3) part.put(nearby(part.value, dice));
  else if (kind < 0.6) part.put(hostile(dice));
  else if (kind < 0.7) part.put(structuredClone(dice.pick(parts).value));
  else if (kind < 0.8) part.put(pickedFrom(other, dice));
  else grow(part, dice);
}

/** A slightly different value of the same kind. */
function nearby(value: unknown, dice: Dice): unknown {
  if (typeof value === 'number') {
    return dice.pick([value + 1, value - 1, value / 3, -value, value * 1e6, value + 2 ** -40]);
  }
  if (typeof value === 'string') {
    const n = Math.floor(dice.next() * (value.length + 1));
    return dice.pick([
      value + dice.pick(TEXTS),
      value.slice(0, n) + dice.pick(TEXTS) + value.slice(n),
      value.slice(0, n),
      value.repeat(dice.pick([2, 50])).slice(0, 20_000),
    ]);
  }
  if (Array.isArray(value)) return dice.pick([[...value, ...value], value.slice(1), [value]]);
  return value === null ? {} : null;
}

function hostile(dice: Dice): unknown {
  return dice.pick([
    () => dice.pick(NUMBERS),
    () => dice.pick(NUMBERS),
    () => dice.pick(TEXTS),
    () => dice.pick(TEXTS),
    () => null,
    () => undefined,
    () => true,
    () => [],
    () => ({}),
    () => new Map([['a', 1]]),
    () => new Set(['a']),
    () => new Date(Number.NaN),
    () => 10n,
    () => /x/,
    () => new Uint8Array(3),
    () => nested(dice.pick([3, 300]), dice.next() < 0.5),
    () => 'long '.repeat(dice.pick([100, 4000])),
    () => Array.from({ length: dice.pick([3, 3000]) }, () => dice.pick(TEXTS)),
  ])();
}

function pickedFrom(other: unknown, dice: Dice): unknown {
  return structuredClone(dice.pick(partsOf({ other })).value);
}

/** Adds an element to a list or an object. */
function grow({ value, put }: Part, dice: Dice): void {
  if (Array.isArray(value)) {
    const n = Math.floor(dice.next() * (value.length + 1));
    value.splice(n, 0, value.length > 0 && dice.next() < 0.6 ? dice.pick(value) : hostile(dice));
  } else if (isOwner(value)) {
    set(value, dice.pick(KEYS), hostile(dice));
  } else put(hostile(dice));
}

/** Sets an own property of any name. */
function set(owner: object, key: PropertyKey, value: unknown): void {
  Object.defineProperty(owner, key, {
    value,
    enumerable: true,
    configurable: true,
    writable: true,
  });
}

function partsOf(root: object): readonly Part[] {
  const parts: Part[] = [];
  const rest: object[] = [root];
  for (let owner = rest.shift(); owner && parts.length < MOST; owner = rest.shift()) {
    for (const part of owner instanceof Map ? inMap(owner) : inObject(owner)) {
      parts.push(part);
      if (isOwner(part.value)) rest.push(part.value);
    }
  }
  return parts;
}

function isOwner(value: unknown): value is object {
  return typeof value === 'object' && value !== null && !ArrayBuffer.isView(value);
}

function inMap(map: Map<unknown, unknown>): readonly Part[] {
  return [...map].slice(0, MOST).map(([key, value]) => ({
    value,
    put: (next) => void map.set(key, next),
    drop: () => void map.delete(key),
  }));
}

function inObject(owner: object): readonly Part[] {
  return Object.entries(owner)
    .slice(0, MOST)
    .map(([key, value]) => ({
      value,
      put: (next) => set(owner, key, next),
      drop: () => {
        if (Array.isArray(owner)) owner.splice(Number(key), 1);
        else Reflect.deleteProperty(owner, key);
      },
    }));
}
