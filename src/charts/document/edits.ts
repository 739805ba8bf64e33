/** The editor's operations. Each takes a chart's state and returns the edited state. */

import { type Condition, SPEEDS, type Speed } from '../../table/index.ts';
import type { Decimal } from './decimal.ts';
import {
  type ChartState,
  hasNumber,
  type Level,
  type LinePlace,
  type MeasuredLine,
  type Place,
  type Priority,
  placeKey,
} from './document.ts';
import type { PatternId } from './patterns.ts';

/** Sets a line's number at one speed, through the sight; null removes it. */
export function setNumber(
  state: ChartState,
  place: LinePlace,
  speed: Speed,
  number: Decimal | null,
): ChartState {
  const old = state.measured.find(at(place));
  const { [speed]: _, ...others } = old ?? bare(place);
  const line: MeasuredLine = number === null ? others : { ...others, [speed]: number };
  return { ...state, measured: withEntry(state.measured, place, hasNumber(line) ? line : null) };
}

/** Sets all numbers that the given lines have. All other numbers stay as they are. */
export function setLines(state: ChartState, lines: readonly MeasuredLine[]): ChartState {
  const numbers = lines.flatMap((line) =>
    SPEEDS.flatMap((speed) => {
      const number = line[speed];
      return number === undefined ? [] : [{ line, speed, number }];
    }),
  );
  return numbers.reduce(
    (edited, { line, speed, number }) => setNumber(edited, line, speed, number),
    state,
  );
}

/** Removes all of a pattern's numbers at one speed. */
export function clearColumn(state: ChartState, pattern: PatternId, speed: Speed): ChartState {
  return state.measured
    .filter((line) => line.pattern === pattern)
    .reduce((edited, line) => setNumber(edited, line, speed, null), state);
}

/**
 * Sets the priority of a line or of a whole pattern.
 * @param priority null removes the entry; a line then has its pattern's priority
 */
export function setPriority(
  state: ChartState,
  { pattern, start }: Place,
  priority: Priority | null,
): ChartState {
  const others = state.priorities.filter((one) => one.pattern !== pattern || one.start !== start);
  const priorities = priority === null ? others : [...others, { pattern, start, priority }];
  return { ...state, priorities };
}

/** Gives each line its priority and removes all other priorities of their patterns. */
export function setOrder(
  state: ChartState,
  order: readonly (LinePlace & { readonly priority: Priority })[],
): ChartState {
  const patterns = new Set(order.map(({ pattern }) => pattern));
  const others = state.priorities.filter(({ pattern }) => !patterns.has(pattern));
  // A line without an entry has the middle priority, 'in turn'.
  const own = order.filter(({ priority }) => priority !== 'in turn');
  const entries = own.map(({ pattern, start, priority }) => ({ pattern, start, priority }));
  return { ...state, priorities: [...others, ...entries] };
}

export function setRemark(state: ChartState, place: LinePlace, text: string): ChartState {
  const remark = text.trim() === '' ? null : { pattern: place.pattern, start: place.start, text };
  return { ...state, remarks: withEntry(state.remarks, place, remark) };
}

/**
 * The default names of the levels. They are invented here and run from an evening's first rack to
 * its last.
 */
export const LEVEL_NAMES = ['Opening night', 'League night', 'Final night'] as const;

/** Puts lines into a level; null removes them from all levels. */
export function setLevel(
  state: ChartState,
  places: readonly LinePlace[],
  level: Level | null,
): ChartState {
  const { names, lines } = state.levels ?? { names: LEVEL_NAMES, lines: [] };
  const set = new Set(places.map(placeKey));
  const others = lines.filter((line) => !set.has(placeKey(line)));
  const own = level === null ? [] : places.map(({ pattern, start }) => ({ pattern, start, level }));
  const all = [...others, ...own];
  // Levels without lines are kept only if they have been renamed.
  if (all.length === 0 && names.every((name, n) => name === LEVEL_NAMES[n]))
    return { ...state, levels: null };
  return { ...state, levels: { names, lines: all } };
}

export function renameLevel(state: ChartState, level: Level, name: string): ChartState {
  const { names, lines } = state.levels ?? { names: LEVEL_NAMES, lines: [] };
  const [first, second, third] = names.map((old, n) => (n === level ? name : old));
  if (first === undefined || second === undefined || third === undefined)
    throw new Error('a chart has three levels');
  return { ...state, levels: { names: [first, second, third], lines } };
}

/**
 * Adds or removes a pattern. The numbers and remarks of a removed pattern are kept in case it is
 * added again.
 */
export function setPattern(state: ChartState, id: PatternId, isIn: boolean): ChartState {
  const others = state.patterns.filter((one) => one !== id);
  return { ...state, patterns: isIn ? [...others, id] : others };
}

export function setCondition(state: ChartState, part: Partial<Condition>): ChartState {
  return { ...state, condition: { ...state.condition, ...part } };
}

function at({ pattern, start }: LinePlace): (one: LinePlace) => boolean {
  return (one) => one.pattern === pattern && one.start === start;
}

function withEntry<T extends LinePlace>(
  entries: readonly T[],
  place: LinePlace,
  entry: T | null,
): readonly T[] {
  const isHere = at(place);
  const others = entries.filter((one) => !isHere(one));
  return entry ? [...others, entry] : others;
}

function bare({ pattern, start }: LinePlace): MeasuredLine {
  return { pattern, start };
}
