/** The parts that stored events and unfinished rehearsals have in common, with their schemas. */

import * as v from 'valibot';
import { KINDS, type Kind, OUTCOMES, type Outcome } from '../../cards/index.ts';
import { SPEEDS, type Speed } from '../../table/index.ts';

/** One question about a skill, with enough data to show it again. */
export interface Instance {
  /** Where the shot starts. All numbers here are in diamonds. */
  readonly start: number;
  readonly speed: Speed;
  readonly aim?: number;
  /** Where the ball arrives on its target rail, or where a ball is. */
  readonly at?: number;
  /** How far the center of a ball is from the nose of its rail. */
  readonly off?: number;
}

/** The shot clocks of a rehearsal, in seconds. */
export const CLOCKS = [25, 30, 45] as const;
export type Clock = (typeof CLOCKS)[number];

/** Whether to show a line in all four mirror images or only in the printed one. */
export const PICTURES = ['all', 'one'] as const;
export type Pictures = (typeof PICTURES)[number];

/** One question of a rehearsal, with its answer. */
export interface RehearsalQuestion {
  readonly card: string;
  readonly kind: Kind;
  readonly asked?: Instance;
  /** The right numbers when the question was asked, in diamonds, one per field. */
  readonly truth?: readonly number[];
  /** The numbers given, in diamonds, one per field; null if none was given. */
  readonly answer: readonly number[] | null;
  /** Answer minus truth, in diamonds, one per field; null if no answer was given. */
  readonly errors: readonly number[] | null;
  readonly outcome: Outcome;
  readonly ms: number;
  /** Whether the clock ran out before the answer. */
  readonly ranOut: boolean;
  /** The tolerance by which the answer was graded, in diamonds. */
  readonly tolerance: number;
}

/** The most questions in a rehearsal. */
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
/** A time in milliseconds since 1970-01-01 UTC. The latest date in ECMAScript is 8.64e15. */
export const instant = whole(0, 8.64e15);
/** A duration in milliseconds, at most one day. */
export const duration = whole(0, 86_400_000);

const givenNumbers = v.pipe(v.array(between(-99, 99)), v.minLength(1), v.maxLength(4));
export const numbers = v.nullable(givenNumbers);

/** A point on a rail, in diamonds. Rails have diamonds 0 to 8; a line may pass just beyond the ends. */
export const diamond = between(-1, 9);
export const tolerance = between(0, 9);

export const instance = v.object({
  start: diamond,
  speed,
  aim: v.exactOptional(diamond),
  at: v.exactOptional(diamond),
  // This is more than the size of any real table.
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
