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
const APART = 2;

/** A card that was off this often in a row on one day waits until the next. */
const ENOUGH_MISSES = 3;

/** The expected part of first answers that are right: common practice, no source. */
export const FIRST_RIGHT = 0.8;

/**
 * The part of known cards that are answered wrong all the same: common practice, no source. Because
 * of it, one more answer to a card that is well known costs more than it adds.
 */
export const SLIPS = 0.03;

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
  const right = stability === 0 ? FIRST_RIGHT : (1 - SLIPS) * recall(stability, days);
  const known = stability === 0 ? 0 : recall(stability, left + days);
  const good = after(memory, days, RIGHT);
  const again = after(after(memory, days, MISS), 0, RIGHT);
  const then = right * recall(good.stability, left) + (1 - right) * recall(again.stability, left);
  return (then - known) / (1 + AFTER_A_MISS * (1 - right) + showing);
}

/** What stays the same on a day, whatever is asked. */
export interface Day {
  readonly today: number;
  /** Weighted gains by item. */
  readonly gains: Float64Array;
  /** Indexes of the items that may be asked in this session: numbers that moved, then by gain. */
  readonly order: readonly number[];
  /** How many steps were taken before. */
  readonly steps: number;
}

/**
 * @param aim the study day that counts
 * @param before an earlier day, whose gains are taken for items that were not asked since
 */
export function dayOf(
  { items }: Course,
  { standings, steps }: State,
  today: number,
  aim: number,
  kernel: Kernel,
  before: Day | null = null,
): Day {
  const left = Math.max(0, aim - today);
  const gains = new Float64Array(items.length);
  const order: number[] = [];
  for (const [n, item] of items.entries()) {
    const standing = standings[n] as Standing;
    if (item.open) order.push(n);
    if (before && standing.step < before.steps) {
      gains[n] = before.gains[n] as number;
      continue;
    }
    const isNew = standing.stability === 0;
    const showing = isNew && item.shows && !standing.shown ? 1 : 0;
    const days = isNew ? 0 : today - standing.lastDay;
    const shuffled = isNew ? 1 : 1 + SHUFFLE * noise(n, today);
    gains[n] = shuffled * item.weight * gainOf(kernel, standing, days, left, showing);
  }
  order.sort((a, b) => (gains[b] as number) - (gains[a] as number));
  const moved = order.filter((n) => (standings[n] as Standing).moved);
  return { today, gains, steps, order: moved.length === 0 ? order : [...moved, ...order] };
}

/** A number from 0 to 1 that looks random (multiplicative hash, Knuth 1973). */
function noise(n: number, today: number): number {
  const mixed = Math.imul(n + 1, 0x9e3779b1) ^ Math.imul(today + 1, 0x85ebca6b);
  return ((Math.imul(mixed ^ (mixed >>> 15), 0x9e3779b1) >>> 8) & 0xffff) / 0x10000;
}

/** Returns the index of the item to show or ask next, or NEVER if today has none left. */
export function choose(course: Course, state: State, day: Day): number {
  const { gains, order } = day;
  const waiting = longestWaiting(course, state, day);
  if (waiting !== NEVER && state.steps - 1 - stepOf(state, waiting) >= APART) return waiting;
  let best = NEVER;
  for (const n of order) {
    if (!mayBeAsked(course, state, n, day)) continue;
    if (best === NEVER) best = n;
    const { pattern } = course.items[n] as Item;
    const isNear = (gains[n] as number) >= INTERLEAVE * (gains[best] as number);
    if ((state.standings[best] as Standing).moved || !isNear) return best;
    if (pattern !== state.lastPattern) return n;
  }
  return best === NEVER ? waiting : best;
}

/** Returns how many lines and skills today still has. A line has at most one card a day. */
export function countLeft(course: Course, state: State, day: Day): number {
  const most = course.newLinesADay ?? Number.POSITIVE_INFINITY;
  const counted = new Set<number>();
  let fresh = 0;
  for (const n of day.order) {
    const item = course.items[n] as Item;
    const comes = isUnderWay(course, state, n, day) || mayBeAsked(course, state, n, day);
    if (!comes || item.siblings.some((one) => counted.has(one))) continue;
    if (isNewLine(item, state.standings[n] as Standing)) fresh += 1;
    counted.add(n);
  }
  const room = Math.max(0, most - newLinesOn(state, day.today));
  return counted.size - Math.max(0, fresh - room);
}

/** Returns how many new lines were shown or asked today. */
function newLinesOn({ newOn, newToday }: State, today: number): number {
  return newOn === today ? newToday : 0;
}

/** Returns the item that was missed or shown the longest time ago and is to be asked again. */
function longestWaiting(course: Course, state: State, day: Day): number {
  let waiting = NEVER;
  for (const n of state.again) {
    if (!isUnderWay(course, state, n, day)) continue;
    if (waiting === NEVER || stepOf(state, n) < stepOf(state, waiting)) waiting = n;
  }
  return waiting;
}

/** Was missed or shown, and is to be asked again today. */
function isUnderWay(course: Course, state: State, n: number, { today }: Day): boolean {
  const { stability, shown, lastDay, off, misses } = state.standings[n] as Standing;
  const { shows, open } = course.items[n] as Item;
  if (!open) return false;
  if (stability === 0) return shows && shown && isFree(course, state, n, today);
  return lastDay === today && off && misses < ENOUGH_MISSES;
}

function mayBeAsked(course: Course, state: State, n: number, { today, gains }: Day): boolean {
  const item = course.items[n] as Item;
  const standing = state.standings[n] as Standing;
  if (!isReady(course, state, n, today)) return false;
  if (standing.stability === 0 && item.shows && standing.shown) return false;
  if (standing.moved) return true;
  if ((gains[n] as number) <= 0) return false;
  const most = course.newLinesADay ?? Number.POSITIVE_INFINITY;
  return !isNewLine(item, standing) || newLinesOn(state, today) < most;
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

/** Was no other card of its line asked today, and goes none first? One that moved goes first. */
function isFree({ items }: Course, { standings }: State, n: number, today: number): boolean {
  const { siblings } = items[n] as Item;
  const { moved } = standings[n] as Standing;
  return siblings.every((one) => {
    const sibling = standings[one] as Standing;
    const goesFirst = sibling.moved && !(moved && n < one);
    return one === n || (sibling.lastDay !== today && !goesFirst);
  });
}

function stepOf({ standings }: State, n: number): number {
  return (standings[n] as Standing).step;
}
