/**
 * Puts cells of a chart's state into words: what a revision changed, or how two versions differ.
 */

import {
  type Cell,
  type Change,
  type ConditionField,
  changedCell,
  formatDecimal,
  isolated,
  type Levels,
  type LinePlace,
  type PatternId,
  type PriorityEntry,
  patternOf,
  roundTo,
  toDecimal,
  toNumber,
} from '../../../charts/index.ts';
import type { Units } from '../../../quiz/index.ts';
import { type Naming, nameAim, SPEEDS, type Table } from '../../../table/index.ts';

/** How the player reads numbers, and the table that the numbers are for. */
export interface Reading {
  readonly table: Table;
  readonly naming: Naming;
  readonly units: Units;
  /** The names of the levels. */
  readonly levels: Levels | null;
}

const FIELDS: Readonly<Record<ConditionField, string>> = {
  restitution: 'Cushion liveliness',
  noseFriction: 'Cushion grip',
  slideFriction: 'Cloth grip',
  rollFriction: 'Cloth drag',
  spinDecay: 'Loss of side, rad/s²',
  soft: 'Soft speed',
  medium: 'Medium speed',
  firm: 'Firm speed',
};

/** Names what a cell is about, for example "Cross-side from 6.0 at medium". */
export function cellName(cell: Cell): string {
  switch (cell.of) {
    case 'condition':
      return FIELDS[cell.field];
    case 'pattern':
      return patternOf(cell.pattern).name;
    case 'number':
      return `${placeName(cell)} at ${cell.speed}`;
    case 'priority':
      return `When to learn ${placeName(cell)}`;
    case 'remark':
      return `Remark on ${placeName(cell)}`;
    case 'level':
      return `Level of ${placeName(cell)}`;
    case 'level name':
      return `Name of level ${cell.level + 1}`;
  }
}

/** Returns a name such as "Cross-side from 6.0", or "Cross-side" for the whole pattern. */
export function placeName({ pattern, start }: LinePlace | Omit<PriorityEntry, 'priority'>): string {
  const { name } = patternOf(pattern as PatternId);
  return start === null ? name : `${name} from ${formatDecimal(start)}`;
}

/** Returns the value of a cell in words, or what a missing cell means. */
export function valueWords(cell: Cell | null, about: Cell['of'], reading: Reading): string {
  if (cell === null) return NONE[about];
  switch (cell.of) {
    case 'condition':
      return fieldWords(cell, reading.units);
    case 'pattern':
      return 'on the chart';
    case 'number':
      return numberWords(cell, reading);
    case 'level':
      return isolated(reading.levels?.names[cell.value] ?? `level ${cell.value + 1}`);
    case 'priority':
      return cell.value;
    default:
      return `“${isolated(cell.value)}”`;
  }
}

const NONE: Readonly<Record<Cell['of'], string>> = {
  condition: 'none',
  pattern: 'not on the chart',
  number: 'not measured',
  priority: 'not said',
  remark: 'none',
  level: 'in no level',
  'level name': 'none',
};

const SPEED_FIELDS: readonly string[] = SPEEDS;
const MILE_AN_HOUR = 0.44704;

/**
 * Writes a value of the condition, with enough decimals to show any change that an author makes.
 */
function fieldWords({ field, value }: Extract<Cell, { of: 'condition' }>, units: Units): string {
  if (!SPEED_FIELDS.includes(field)) return String(Number(value.toFixed(4)));
  return units === 'cm' ? `${value.toFixed(2)} m/s` : `${(value / MILE_AN_HOUR).toFixed(2)} mph`;
}

/**
 * Writes a number in the player's naming: exactly through the sight, to the hundredth at the nose.
 */
function numberWords(cell: Extract<Cell, { of: 'number' }>, { table, naming }: Reading): string {
  if (naming === 'through') return formatDecimal(cell.value);
  const start = toNumber(cell.start);
  const named = nameAim(table, patternOf(cell.pattern), start, toNumber(cell.value), naming);
  return formatDecimal(roundTo(named, toDecimal(0.01)));
}

/** A change as a row: its subject, the old value and the new one. */
export interface ChangeRow {
  readonly name: string;
  readonly from: string;
  readonly to: string;
}

export function changeRow(change: Change, reading: Reading): ChangeRow {
  const cell = changedCell(change);
  return {
    name: cellName(cell),
    from: valueWords(change.from, cell.of, reading),
    to: valueWords(change.to, cell.of, reading),
  };
}

/**
 * The names of two versions that are not an old and a new one, for example "theirs" and "yours".
 */
export type Sides = readonly [from: string, to: string];

/** Returns one sentence about the patterns that are added, and one about those that leave. */
export function patternsWords(
  changes: readonly Change[],
  sides: Sides | null = null,
): readonly string[] {
  const names = (of: (change: Change) => Cell | null) =>
    changes.flatMap((change) => {
      const cell = of(change);
      return cell?.of === 'pattern' ? [patternOf(cell.pattern).name] : [];
    });
  const come = names(({ to }) => to);
  const go = names(({ from }) => from);
  const on = (side: string) => `Patterns on ${side} alone`;
  const comes = sides ? on(sides[1]) : 'Patterns that come to the chart';
  const goes = sides ? on(sides[0]) : 'Patterns that leave the chart';
  return [
    ...(come.length > 0 ? [`${comes}: ${come.join('; ')}.`] : []),
    ...(go.length > 0 ? [`${goes}: ${go.join('; ')}.`] : []),
  ];
}
