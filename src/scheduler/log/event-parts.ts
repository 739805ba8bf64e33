/** Parts of stored events and of an unfinished rehearsal, with their schemas. */

import * as v from 'valibot';
import { KINDS, type Kind, OUTCOMES, type Outcome } from '../../cards/index.ts';
import { SPEEDS, type Speed } from '../../table/index.ts';

/** One question to a skill: enough to show the same question again. */
export interface Instance {
  /** Diamonds, as are `aim` and `at`. */
  readonly start: number;
  readonly speed: Speed;
  readonly aim?: number;
  /** Where on its target rail the ball arrives, or where a ball lies. */
  readonly at?: number;
  /** How far a ball's center is from the nose of its rail, diamonds. */
  readonly off?: number;
}

/** The shot clocks of a rehearsal, seconds. */
export const CLOCKS = [25, 30, 45] as const;
export type Clock = (typeof CLOCKS)[number];

/** The mirror pictures in which a line is shown: all four, or only the printed one. */
export const PICTURES = ['all', 'one'] as const;
export type Pictures = (typeof PICTURES)[number];

/** One question of a rehearsal, with its answer. */
export interface RehearsalQuestion {
  readonly card: string;
  readonly kind: Kind;
  readonly asked?: Instance;
  /** What was right when it was asked, diamonds, one per field. */
  readonly truth?: readonly number[];
  /** Diamonds, one per field; null if none was given. */
  readonly answer: readonly number[] | null;
  /** Signed answer − truth, diamonds, one per field; null if no answer was given. */
  readonly errors: readonly number[] | null;
  readonly outcome: Outcome;
  readonly ms: number;
  /** The clock ran out before the answer. */
  readonly ranOut: boolean;
  /** The tolerance that graded it, diamonds. */
  readonly tolerance: number;
}

/** Most questions of a rehearsal. */
export const MOST_QUESTIONS = 200;

export const whole = (least: number, most: number) =>
  v.pipe(v.number(), v.integer(), v.minValue(least), v.maxValue(most));

export const text = (least: number, most: number) =>
  v.pipe(v.string(), v.minLength(least), v.maxLength(most));

export const between = (least: number, most: number) =>
  v.pipe(v.number(), v.minValue(least), v.maxValue(most));

export const name = text(1, 200);
export const seed = v.pipe(v.number(), v.finite());
export const kind = v.picklist(KINDS);
export const outcome = v.picklist(OUTCOMES);
export const speed = v.picklist(SPEEDS);
export const pictures = v.picklist(PICTURES);
export const clock = v.nullable(v.picklist(CLOCKS));
/** Milliseconds since 1970-01-01 UTC, up to the latest date (ECMAScript: 8.64e15). */
export const instant = whole(0, 8.64e15);
/** At most a day, milliseconds. */
export const duration = whole(0, 86_400_000);

const givenNumbers = v.pipe(v.array(between(-99, 99)), v.minLength(1), v.maxLength(4));
export const numbers = v.nullable(givenNumbers);

/** A point on a rail: the count goes to 8, and a line may pass just beyond the rail's ends. */
export const diamond = between(-1, 9);
export const tolerance = between(0, 9);

export const instance = v.object({
  start: diamond,
  speed,
  aim: v.exactOptional(diamond),
  at: v.exactOptional(diamond),
  // Longer than any table of the trade.
  off: v.exactOptional(between(0, 3)),
});

export const question = v.object({
  card: name,
  kind,
  asked: v.exactOptional(instance),
  truth: v.exactOptional(givenNumbers),
  answer: numbers,
  errors: numbers,
  outcome,
  ms: duration,
  ranOut: v.boolean(),
  tolerance,
});
