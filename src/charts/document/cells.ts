/**
 * Splits a chart's state into cells, the smallest parts that a revision can change on their own.
 * States are compared and merged cell by cell.
 */

import { type Condition, SPEEDS, type Speed } from '../../table/index.ts';
import type { Decimal } from './decimal.ts';
import {
  type ChartState,
  inOrder,
  type Level,
  type Levels,
  type LinePlace,
  type MeasuredLine,
  type Place,
  type Priority,
  type PriorityEntry,
  placeKey,
  type Remark,
} from './document.ts';
import { PATTERNS, type PatternId } from './patterns.ts';

const CONDITION_FIELDS = [
  'restitution',
  'noseFriction',
  'slideFriction',
  'rollFriction',
  'spinDecay',
  ...SPEEDS,
] as const;
export type ConditionField = (typeof CONDITION_FIELDS)[number];

export type Cell =
  | { readonly of: 'condition'; readonly field: ConditionField; readonly value: number }
  | { readonly of: 'pattern'; readonly pattern: PatternId; readonly value: true }
  | (LinePlace & { readonly of: 'number'; readonly speed: Speed; readonly value: Decimal })
  | (Place & { readonly of: 'priority'; readonly value: Priority })
  | (LinePlace & { readonly of: 'remark'; readonly value: string })
  | { readonly of: 'level name'; readonly level: Level; readonly value: string }
  | (LinePlace & { readonly of: 'level'; readonly value: Level });

/** Cells by `cellKey`, in the order of `cellsOf`. */
export type Cells = ReadonlyMap<string, Cell>;

/** Returns a text that differs for any two cells of a state, whatever their values. */
export function cellKey(cell: Cell): string {
  switch (cell.of) {
    case 'condition':
      return `condition ${cell.field}`;
    case 'pattern':
      return `pattern ${cell.pattern}`;
    case 'number':
      return `number ${placeKey(cell)} ${cell.speed}`;
    case 'level name':
      return `level name ${cell.level}`;
    default:
      return `${cell.of} ${cell.pattern} ${cell.start}`;
  }
}

/**
 * Returns the cells of a state in order: the condition, the patterns, then each list by pattern and
 * start.
 */
export function cellsOf(state: ChartState): Cells {
  const { condition, patterns, measured, priorities, remarks, levels } = inOrder(state);
  const cells: Cell[] = [
    ...conditionCells(condition),
    ...patterns.map((pattern): Cell => ({ of: 'pattern', pattern, value: true })),
    ...measured.flatMap(numberCells),
    ...priorities.map(
      ({ pattern, start, priority: value }): Cell => ({ of: 'priority', pattern, start, value }),
    ),
    ...remarks.map(
      ({ pattern, start, text: value }): Cell => ({ of: 'remark', pattern, start, value }),
    ),
    ...levelCells(levels),
  ];
  return new Map(cells.map((cell) => [cellKey(cell), cell]));
}

function conditionCells({ speeds, ...fields }: Condition): readonly Cell[] {
  const all = { ...fields, ...speeds };
  return CONDITION_FIELDS.map((field) => ({ of: 'condition', field, value: all[field] }));
}

function numberCells(line: MeasuredLine): readonly Cell[] {
  const { pattern, start } = line;
  return SPEEDS.flatMap((speed): Cell[] => {
    const value = line[speed];
    return value === undefined ? [] : [{ of: 'number', pattern, start, speed, value }];
  });
}

function levelCells(levels: Levels | null): readonly Cell[] {
  if (!levels) return [];
  return [
    ...levels.names.map(
      (value, level): Cell => ({ of: 'level name', level: level as Level, value }),
    ),
    ...levels.lines.map(
      ({ pattern, start, level: value }): Cell => ({ of: 'level', pattern, start, value }),
    ),
  ];
}

/**
 * Returns the state made of the given cells. It has levels only if all three level names are among
 * the cells.
 * @throws if a field of the condition is missing, because no change can remove one
 */
export function stateFrom(cells: Iterable<Cell>): ChartState {
  const all = [...cells];
  return inOrder({
    condition: conditionFrom(only(all, 'condition')),
    patterns: only(all, 'pattern').map(({ pattern }) => pattern),
    measured: measuredFrom(only(all, 'number')),
    priorities: only(all, 'priority').map(
      ({ pattern, start, value: priority }): PriorityEntry => ({ pattern, start, priority }),
    ),
    remarks: only(all, 'remark').map(
      ({ pattern, start, value: text }): Remark => ({ pattern, start, text }),
    ),
    levels: levelsFrom(only(all, 'level name'), only(all, 'level')),
  });
}

type CellOf<K extends Cell['of']> = Extract<Cell, { readonly of: K }>;

function only<K extends Cell['of']>(cells: readonly Cell[], kind: K): readonly CellOf<K>[] {
  return cells.filter((cell): cell is CellOf<K> => cell.of === kind);
}

function measuredFrom(cells: readonly CellOf<'number'>[]): readonly MeasuredLine[] {
  const lines = new Map<string, MeasuredLine>();
  for (const cell of cells) {
    const { pattern, start, speed, value } = cell;
    const line = lines.get(placeKey(cell)) ?? { pattern, start };
    lines.set(placeKey(cell), { ...line, [speed]: value });
  }
  return [...lines.values()];
}

function conditionFrom(cells: readonly CellOf<'condition'>[]): Condition {
  const fields = new Map(cells.map(({ field, value }) => [field, value]));
  const field = (name: ConditionField): number => {
    const value = fields.get(name);
    if (value === undefined) throw new Error(`no ${name} in the condition`);
    return value;
  };
  return {
    restitution: field('restitution'),
    noseFriction: field('noseFriction'),
    slideFriction: field('slideFriction'),
    rollFriction: field('rollFriction'),
    spinDecay: field('spinDecay'),
    speeds: { soft: field('soft'), medium: field('medium'), firm: field('firm') },
  };
}

function levelsFrom(
  names: readonly CellOf<'level name'>[],
  lines: readonly CellOf<'level'>[],
): Levels | null {
  const nameOf = (level: Level) => names.find((cell) => cell.level === level)?.value;
  const [first, second, third] = [nameOf(0), nameOf(1), nameOf(2)];
  if (first === undefined || second === undefined || third === undefined) return null;
  return {
    names: [first, second, third],
    lines: lines.map(({ pattern, start, value: level }) => ({ pattern, start, level })),
  };
}

const ORDER: readonly PatternId[] = PATTERNS.map(({ id }) => id);
const KINDS: readonly Cell['of'][] = [
  'condition',
  'pattern',
  'number',
  'priority',
  'remark',
  'level name',
  'level',
];

/** Compares two cells by the order of `cellsOf`. */
export function inCellOrder(a: Cell, b: Cell): number {
  const [one, other] = [rankOf(a), rankOf(b)];
  const differs = one.findIndex((value, n) => value !== other[n]);
  return differs < 0 ? 0 : (one[differs] ?? 0) - (other[differs] ?? 0);
}

function rankOf(cell: Cell): readonly number[] {
  const kind = KINDS.indexOf(cell.of);
  if (cell.of === 'condition') return [kind, CONDITION_FIELDS.indexOf(cell.field), 0, 0];
  if (cell.of === 'level name') return [kind, cell.level, 0, 0];
  const pattern = ORDER.indexOf(cell.pattern);
  if (cell.of === 'pattern') return [kind, pattern, 0, 0];
  const speed = cell.of === 'number' ? SPEEDS.indexOf(cell.speed) : 0;
  // A whole pattern comes before its lines.
  return [kind, pattern, cell.start ?? -1, speed];
}
