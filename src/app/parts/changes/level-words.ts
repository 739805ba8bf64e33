/**
 * Sums up the changes in a chart's levels, because a list of every line would be too long to read.
 */

import {
  type Cell,
  type Change,
  changedCell,
  isolated,
  type Level,
} from '../../../charts/index.ts';
import type { Sides } from './change-words.ts';
import { counted } from './line-change-words.ts';

const LEVELS: readonly Level[] = [0, 1, 2];

type NameCell = Extract<Cell, { of: 'level name' }>;

/** Returns sentences about the levels' names and about their lines; none if no level changes. */
export function levelWords(
  changes: readonly Change[],
  names: readonly string[],
  sides: Sides | null = null,
): readonly string[] {
  return [...nameWords(changes, sides), ...lineWords(changes, names, sides)];
}

function nameWords(changes: readonly Change[], sides: Sides | null): readonly string[] {
  const named = (of: (change: Change) => Cell | null): readonly NameCell[] =>
    changes.flatMap((change) => {
      const cell = of(change);
      return cell?.of === 'level name' ? [cell] : [];
    });
  const [before, after] = [named(({ from }) => from), named(({ to }) => to)];
  const list = (cells: readonly NameCell[]) => cells.map(({ value }) => isolated(value)).join('; ');
  const [first, second] = sides ?? ['', ''];
  // A chart names all its levels or none of them.
  if (before.length === 0 && after.length === 0) return [];
  if (before.length === 0)
    return [sides ? `Levels on ${second} alone: ${list(after)}.` : `New levels: ${list(after)}.`];
  if (after.length === 0)
    return [
      sides
        ? `Levels on ${first} alone: ${list(before)}.`
        : `No more levels: it had ${list(before)}.`,
    ];
  const [was, is] = sides ?? ['was', 'is'];
  const renamed = after.map(
    ({ level, value }, n) =>
      `level ${level + 1} ${was} “${isolated(before[n]?.value ?? '')}”, ${is} “${isolated(value)}”`,
  );
  return [`Names of levels: ${renamed.join('; ')}.`];
}

function lineWords(
  changes: readonly Change[],
  names: readonly string[],
  sides: Sides | null,
): readonly string[] {
  const lines = changes.filter((change) => changedCell(change).of === 'level');
  if (lines.length === 0) return [];
  if (sides)
    return [`${counted(lines.length)} with another level on ${sides[0]} than on ${sides[1]}.`];
  const come = lines.filter(({ from }) => !from).flatMap(({ to }) => levelIn(to));
  const go = lines.filter(({ to }) => !to).length;
  const moved = lines.length - come.length - go;
  return [
    ...(come.length > 0
      ? [`${counted(come.length)} put into levels: ${perLevel(come, names)}.`]
      : []),
    ...(moved > 0 ? [`${counted(moved)} ${moved === 1 ? 'changes' : 'change'} level.`] : []),
    ...(go > 0 ? [`${counted(go)} taken out of the levels.`] : []),
  ];
}

/** Counts the lines in each level, for example "29 in Beginners, 29 in Club". */
function perLevel(come: readonly Level[], names: readonly string[]): string {
  return LEVELS.map((level) => [level, come.filter((one) => one === level).length] as const)
    .filter(([, count]) => count > 0)
    .map(([level, count]) => `${count} in ${isolated(names[level] ?? `level ${level + 1}`)}`)
    .join(', ');
}

function levelIn(cell: Cell | null): readonly Level[] {
  return cell?.of === 'level' ? [cell.value] : [];
}
