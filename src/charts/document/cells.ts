/**
 * A chart's state as cells: the smallest things that a revision can change one without the other.
 * Two states differ in cells, and two histories are merged cell by cell.
 */

import { type Condition, SPEEDS, type Speed } from '../../table/index.ts';
import type { Decimal } from './decimal.ts';
import {
  type ChartState,
  inOrder,
  type Level,
  type LevelEntry,
  type Levels,
  type LinePlace,
  type MeasuredLine,
  type Priority,
  type PriorityEntry,
  placeKey,
  type Remark,
} from './document.ts';
import { PATTERNS, type PatternId } from './patterns.ts';

export const CONDITION_FIELDS = [
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
  | (Omit<PriorityEntry, 'priority'> & { readonly of: 'priority'; readonly value: Priority })
  | (LinePlace & { readonly of: 'remark'; readonly value: string })
  | { readonly of: 'level name'; readonly level: Level; readonly value: string }
  | (LinePlace & { readonly of: 'level'; readonly value: Level });

/** By key, in order. */
export type Cells = ReadonlyMap<string, Cell>;

/** Text that tells a cell from every other of its state, whatever its value. */
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

/** Cells in their one order: condition, patterns, then each list by pattern and start. */
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
 * The state of some cells, in order. Levels without all of their names are none.
 * @throws if a field of the condition is missing: no change takes one away
 */
export function stateFrom(cells: Iterable<Cell>): ChartState {
  const patterns: PatternId[] = [];
  const condition = new Map<ConditionField, number>();
  const measured = new Map<string, MeasuredLine>();
  const priorities: PriorityEntry[] = [];
  const remarks: Remark[] = [];
  const names = new Map<Level, string>();
  const lines: LevelEntry[] = [];
  for (const cell of cells) {
    if (cell.of === 'condition') condition.set(cell.field, cell.value);
    else if (cell.of === 'level name') names.set(cell.level, cell.value);
    else if (cell.of === 'pattern') patterns.push(cell.pattern);
    else if (cell.of === 'priority')
      priorities.push({ pattern: cell.pattern, start: cell.start, priority: cell.value });
    else if (cell.of === 'remark')
      remarks.push({ pattern: cell.pattern, start: cell.start, text: cell.value });
    else if (cell.of === 'level')
      lines.push({ pattern: cell.pattern, start: cell.start, level: cell.value });
    else {
      const { pattern, start, speed, value } = cell;
      const line = measured.get(placeKey(cell)) ?? { pattern, start };
      measured.set(placeKey(cell), { ...line, [speed]: value });
    }
  }
  return inOrder({
    condition: conditionFrom(condition),
    patterns,
    measured: [...measured.values()],
    priorities,
    remarks,
    levels: levelsFrom(names, lines),
  });
}

function conditionFrom(fields: ReadonlyMap<ConditionField, number>): Condition {
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
  names: ReadonlyMap<Level, string>,
  lines: readonly LevelEntry[],
): Levels | null {
  const [first, second, third] = [names.get(0), names.get(1), names.get(2)];
  if (first === undefined || second === undefined || third === undefined) return null;
  return { names: [first, second, third], lines };
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

/** As in `cellsOf`. */
export function inCellOrder(a: Cell, b: Cell): number {
  const one = rankOf(a);
  const other = rankOf(b);
  const place = one.findIndex((value, n) => value !== other[n]);
  return place < 0 ? 0 : (one[place] ?? 0) - (other[place] ?? 0);
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
