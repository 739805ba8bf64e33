/**
 * Chooses what to ask next: the card for which one more answer adds most to the weighted lines known
 * on the day that counts, per expected answer. It looks one step ahead and plans nothing.
 * docs/design/choose.md says what it was compared with.
 */

import { type Kernel, MISS, RIGHT } from '../memory/kernel.ts';
import type { Memory } from '../memory/memory.ts';
import type { Course, Item } from './course.ts';
import { isNewLine, NEVER, type Standing, type State } from './state.ts';

/** If no day is set, one that is always this many days ahead counts. */
export const AHEAD = 30;

/** A card that was just missed or shown is asked after at least this many other steps, if any. */
export const APART = 2;

/** A card that was off this often in a row on one day waits until the next. */
export const ENOUGH_MISSES = 3;

/** The expected part of first answers that are right: common practice, no source. */
export const FIRST_RIGHT = 0.8;

/** The expected answers after a miss until the card is right: common practice, no source. */
const AFTER_A_MISS = 1.2;

/** A card of another pattern goes before the best one if it gains at least this part as much. */
const INTERLEAVE = 0.7;

/**
 * The part by which gains differ from day to day, so that no line becomes a cue for the next. New
 * cards come in the order of the chart.
 */
const SHUFFLE = 0.02;

/**
 * The recall that one answer now adds on a later day, per expected answer.
 * @param memory with a stability of 0 before the first answer
 * @param days since the last answer
 * @param left days from now to the day that counts
 * @param showing 1 if the line has to be shown first, otherwise 0
 */
export function gainOf(
  { recall, after }: Kernel,
  memory: Memory,
  days: number,
  left: number,
  showing: number,
): number {
  const { stability } = memory;
  const right = stability === 0 ? FIRST_RIGHT : recall(stability, days);
  const known = stability === 0 ? 0 : recall(stability, left + days);
  const good = after(memory, days, RIGHT);
  const again = after(after(memory, days, MISS), 0, RIGHT);
  const then = right * recall(good.stability, left) + (1 - right) * recall(again.stability, left);
  return (then - known) / (1 + AFTER_A_MISS * (1 - right) + showing);
}

/** Returns the weighted gains of a day by item. They stay the same until the next day. */
export function gainsOn(
  { items }: Course,
  { standings }: State,
  today: number,
  day: number,
  kernel: Kernel,
): Float64Array {
  const left = Math.max(0, day - today);
  return Float64Array.from(items, (item, n) => {
    const standing = standings[n] as Standing;
    const isNew = standing.stability === 0;
    const showing = isNew && item.shows && !standing.shown ? 1 : 0;
    const days = isNew ? 0 : today - standing.lastDay;
    const shuffled = isNew ? 1 : 1 + SHUFFLE * noise(n, today);
    return shuffled * item.weight * gainOf(kernel, standing, days, left, showing);
  });
}

/** A number from 0 to 1 that looks random (multiplicative hash, Knuth 1973). */
function noise(n: number, today: number): number {
  const mixed = Math.imul(n + 1, 0x9e3779b1) ^ Math.imul(today + 1, 0x85ebca6b);
  return ((Math.imul(mixed ^ (mixed >>> 15), 0x9e3779b1) >>> 8) & 0xffff) / 0x10000;
}

/** The index of what to show or ask next, or NEVER; and how many items today still has. */
export interface Choice {
  readonly next: number;
  readonly left: number;
}

export function choose(course: Course, state: State, today: number, gains: Float64Array): Choice {
  const { items } = course;
  const isBefore = (n: number, best: number): boolean => {
    if (best === NEVER) return true;
    const [one, other] = [state.standings[n] as Standing, state.standings[best] as Standing];
    if (one.moved !== other.moved) return one.moved;
    return (gains[n] as number) > (gains[best] as number);
  };
  let [best, other, waiting, left] = [NEVER, NEVER, NEVER, 0];
  for (let n = 0; n < items.length; n++) {
    const { pattern, open } = items[n] as Item;
    if (!open) continue;
    if (isUnderWay(course, state, n, today)) {
      if (waiting === NEVER || stepOf(state, n) < stepOf(state, waiting)) waiting = n;
    } else if (mayBeAsked(course, state, n, today, gains)) {
      if (isBefore(n, best)) best = n;
      if (pattern !== state.lastPattern && isBefore(n, other)) other = n;
    } else continue;
    left += 1;
  }
  const rested = waiting !== NEVER && state.steps - 1 - stepOf(state, waiting) >= APART;
  if (rested || best === NEVER) return { next: waiting, left };
  const mixes =
    other !== NEVER &&
    !(state.standings[best] as Standing).moved &&
    (gains[other] as number) >= INTERLEAVE * (gains[best] as number);
  return { next: mixes ? other : best, left };
}

/** Was missed or shown, and is to be asked again today. */
function isUnderWay(course: Course, state: State, n: number, today: number): boolean {
  const { stability, shown, lastDay, off, misses } = state.standings[n] as Standing;
  const { shows } = course.items[n] as Item;
  if (stability === 0) return shows && shown && isFree(course, state, n, today);
  return lastDay === today && off && misses < ENOUGH_MISSES;
}

function mayBeAsked(
  course: Course,
  state: State,
  n: number,
  today: number,
  gains: Float64Array,
): boolean {
  const item = course.items[n] as Item;
  const standing = state.standings[n] as Standing;
  if (!isReady(course, state, n, today)) return false;
  if (standing.moved) return true;
  if ((gains[n] as number) <= 0) return false;
  const newToday = state.newOn === today ? state.newToday : 0;
  const { newLinesADay } = course;
  return !isNewLine(item, standing) || newLinesADay === null || newToday < newLinesADay;
}

/**
 * Was neither it nor another card of its line asked today, and does it not wait for other cards? A
 * card waits only before its first answer.
 */
export function isReady(course: Course, state: State, n: number, today: number): boolean {
  const { lastDay, moved, stability } = state.standings[n] as Standing;
  if (lastDay === today || !isFree(course, state, n, today)) return false;
  if (moved || stability !== 0) return true;
  const { after } = course.items[n] as Item;
  return after.every((one) => isKnownSince(state.standings[one] as Standing, today));
}

/** Was answered before today, and was not off the last time. */
function isKnownSince({ firstDay, off }: Standing, today: number): boolean {
  return firstDay !== NEVER && firstDay < today && !off;
}

/** Was no other card of its line asked today? */
function isFree({ items }: Course, { standings }: State, n: number, today: number): boolean {
  const { siblings } = items[n] as Item;
  return siblings.every((one) => (standings[one] as Standing).lastDay !== today);
}

function stepOf({ standings }: State, n: number): number {
  return (standings[n] as Standing).step;
}
