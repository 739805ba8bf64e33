/** What an editor does to a chart's state: each a state out of a state. */

import { type Condition, SPEEDS, type Speed } from '../../table/index.ts';
import type { Decimal } from './decimal.ts';
import {
  type ChartState,
  type Level,
  type LinePlace,
  type MeasuredLine,
  type Priority,
  type PriorityEntry,
  placeKey,
} from './document.ts';
import type { PatternId } from './patterns.ts';

/** Sets a line's number at one speed, through the sight; null takes it away. */
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

/** Takes lines over; a number they lack is left as it is. */
export function takeLines(state: ChartState, lines: readonly MeasuredLine[]): ChartState {
  return lines.reduce(
    (taken, line) =>
      SPEEDS.reduce((one, speed) => {
        const number = line[speed];
        return number === undefined ? one : setNumber(one, line, speed, number);
      }, taken),
    state,
  );
}

/** Takes all numbers of a pattern away at a speed. */
export function clearColumn(state: ChartState, pattern: PatternId, speed: Speed): ChartState {
  return state.measured
    .filter((line) => line.pattern === pattern)
    .reduce((one, line) => setNumber(one, line, speed, null), state);
}

/** @param priority null for what it is without an entry: a line's pattern's, a pattern's in turn */
export function setPriority(
  state: ChartState,
  of: Pick<PriorityEntry, 'pattern' | 'start'>,
  priority: Priority | null,
): ChartState {
  const { pattern, start } = of;
  const others = state.priorities.filter((one) => one.pattern !== pattern || one.start !== start);
  const priorities = priority === null ? others : [...others, { pattern, start, priority }];
  return { ...state, priorities };
}

/** Gives each of these lines its priority; their patterns' own, and other lines', go. */
export function setOrder(
  state: ChartState,
  order: readonly (LinePlace & { readonly priority: Priority })[],
): ChartState {
  const patterns = new Set(order.map(({ pattern }) => pattern));
  const others = state.priorities.filter(({ pattern }) => !patterns.has(pattern));
  // In turn is what a line is that has no entry.
  const own = order.filter(({ priority }) => priority !== 'in turn');
  const entries = own.map(({ pattern, start, priority }) => ({ pattern, start, priority }));
  return { ...state, priorities: [...others, ...entries] };
}

export function setRemark(state: ChartState, place: LinePlace, text: string): ChartState {
  const remark = text.trim() === '' ? null : { pattern: place.pattern, start: place.start, text };
  return { ...state, remarks: withEntry(state.remarks, place, remark) };
}

/** Of our own, from the evening's first rack to its last. */
export const LEVEL_NAMES = ['Opening night', 'League night', 'Final night'] as const;

/** Puts lines into a level; null takes them out of all. */
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
  // Levels of no line say nothing, unless they have been given names.
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

/** What is known of a pattern that leaves is kept, and there again when it comes back. */
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

function hasNumber(line: MeasuredLine): boolean {
  return SPEEDS.some((speed) => line[speed] !== undefined);
}
