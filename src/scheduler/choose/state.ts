/** Where each item of a course stands, as the answers so far show it. A run forward changes it. */

import type { Card } from '../../cards/index.ts';
import { eventsSince, isStep, lastEvent } from '../log/last-event.ts';
import type { LogState } from '../log/state.ts';
import { type Grade, type Kernel, MISS, RIGHT } from '../memory/kernel.ts';
import type { Course, Item } from './course.ts';

export const NEVER = -1;

export interface Standing {
  /** Days until recall falls to 0.9; 0 before the first answer. */
  stability: number;
  /** 1–10. */
  difficulty: number;
  /** Study days of the first and the last answer, or NEVER. */
  firstDay: number;
  lastDay: number;
  /** Whether the last answer was off. */
  off: boolean;
  /** How often in a row it was off on its last day. */
  misses: number;
  /** Index of the step that last showed or asked it, or NEVER. */
  step: number;
  /** Whether its line has been shown. */
  shown: boolean;
  /** Whether its number moved, so it is asked before everything else. */
  moved: boolean;
}

/** Plain data, so it can be sent to a worker. */
export interface State {
  readonly standings: readonly Standing[];
  /** Indexes of the items that were missed or shown and may have to be asked again today. */
  readonly again: Set<number>;
  /** How many steps were taken: a line shown or a card asked. */
  steps: number;
  /** The pattern of the last step today. */
  lastPattern: string | null;
  /** How many new lines were shown or asked on the day `newOn`. */
  newToday: number;
  newOn: number;
}

const UNKNOWN: Standing = {
  stability: 0,
  difficulty: 0,
  firstDay: NEVER,
  lastDay: NEVER,
  off: false,
  misses: 0,
  step: NEVER,
  shown: false,
  moved: false,
};

/** @param cards all cards of the chart */
export function stateOf(
  { items }: Course,
  cards: readonly Card[],
  log: LogState,
  today: number,
): State {
  const standings = items.map(({ id, line }): Standing => {
    const memory = log.memories.get(id);
    const met = log.met.get(line);
    const step = Math.max(memory?.lastStep ?? NEVER, met?.step ?? NEVER);
    const seen = { ...UNKNOWN, step, shown: met !== undefined, moved: log.moved.has(id) };
    if (!memory) return seen;
    const { stability, difficulty, firstDay, missesInARow: misses } = memory;
    // An answer dated after today comes from a clock that was ahead. It counts as today's.
    const lastDay = Math.min(memory.lastDay, today);
    const off = memory.lastOutcome === 'off';
    return { ...seen, stability, difficulty, firstDay, lastDay, off, misses };
  });
  const placed = placedSince(log, today);
  const isNew = ({ id, kind, line }: Item): boolean =>
    kind === 'number' && !placed.has(id) && firstSeen(log, id, line) >= today;
  const again = standings.flatMap((one, n) =>
    (one.off && one.lastDay === today) || (one.shown && one.stability === 0) ? [n] : [],
  );
  return {
    standings,
    again: new Set(again),
    steps: log.steps,
    lastPattern: lastPattern(cards, log, today),
    newToday: items.filter(isNew).length,
    newOn: today,
  };
}

/** Returns the day on which a line was first met or asked; NEVER if it was not. */
function firstSeen(log: LogState, id: string, line: string): number {
  const days = [log.met.get(line)?.day, log.memories.get(id)?.firstDay];
  const known = days.filter((day) => day !== undefined);
  return known.length > 0 ? Math.min(...known) : NEVER;
}

/** Returns the ids of the cards that placement proved since a day. Their lines are not new. */
function placedSince(log: LogState, today: number): ReadonlySet<string> {
  const proved = eventsSince(log, today).filter((event) => event.type === 'proved');
  return new Set(proved.map(({ card }) => card));
}

function lastPattern(cards: readonly Card[], log: LogState, today: number): string | null {
  const last = lastEvent(log, today, isStep);
  if (last?.day !== today) return null;
  const shown = cards.find((card) =>
    last.type === 'answered' ? card.id === last.card : card.lineId === last.line,
  );
  return shown?.pattern ?? null;
}

/** A copy that a run may change. */
export function copyOf(state: State): State {
  const standings = state.standings.map((one) => ({ ...one }));
  return { ...state, standings, again: new Set(state.again) };
}

/** A line whose number moved is not new. */
export function isNewLine({ kind }: Item, { stability, shown, moved }: Standing): boolean {
  return kind === 'number' && stability === 0 && !shown && !moved;
}

/** Shows a new line, or asks the item. Returns whether it was asked. */
export function takeStep(
  course: Course,
  state: State,
  n: number,
  today: number,
  kernel: Kernel,
  isRight: () => boolean,
): boolean {
  const { stability, shown } = state.standings[n] as Standing;
  const asks = stability !== 0 || shown || !(course.items[n] as Item).shows;
  if (asks) answer(course, state, n, today, isRight() ? RIGHT : MISS, kernel);
  else show(course, state, n, today);
  return asks;
}

/** Shows an item without asking it. */
function show(course: Course, state: State, n: number, today: number): void {
  const [item] = stepTo(course, state, n, today);
  state.again.add(n);
  for (const sibling of item.siblings) (state.standings[sibling] as Standing).shown = true;
}

/** Answers an item. */
function answer(
  course: Course,
  state: State,
  n: number,
  today: number,
  grade: Grade,
  kernel: Kernel,
): void {
  const [, standing] = stepTo(course, state, n, today);
  const isFirst = standing.stability === 0;
  const days = isFirst ? 0 : today - standing.lastDay;
  const again = !isFirst && days === 0;
  Object.assign(standing, kernel.after(standing, days, grade));
  if (isFirst) standing.firstDay = today;
  standing.misses = grade === MISS ? (again ? standing.misses : 0) + 1 : 0;
  standing.off = grade !== RIGHT;
  if (standing.off) state.again.add(n);
  else state.again.delete(n);
  standing.lastDay = today;
  standing.moved = false;
}

function stepTo({ items }: Course, state: State, n: number, today: number): [Item, Standing] {
  const item = items[n] as Item;
  const standing = state.standings[n] as Standing;
  if (state.newOn !== today) [state.newOn, state.newToday] = [today, 0];
  if (isNewLine(item, standing)) state.newToday += 1;
  standing.step = state.steps;
  state.steps += 1;
  state.lastPattern = item.pattern;
  return [item, standing];
}
