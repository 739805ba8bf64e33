/** Words for the changes that an imported table made to the chart. */

import {
  type Cell,
  type ChartState,
  changedCell,
  diffStates,
  PATTERNS,
  patternOf,
} from '../../charts/index.ts';
import type { TextEncoding } from '../device/table-text.ts';
import { patternsWords } from '../parts/changes/change-words.ts';

const ASSUMED =
  'It is not written in UTF-8: its letters were taken for Windows-1252, so look at the remarks.';

export function importWords(before: ChartState, after: ChartState, encoding: TextEncoding): string {
  const changes = diffStates(before, after);
  const cells = changes.map(changedCell);
  const count = (of: Cell['of']) => cells.filter((cell) => cell.of === of).length;
  const says = [
    numberWords(cells),
    changedWords(count('priority'), 'priority', 'priorities'),
    changedWords(count('remark'), 'remark', 'remarks'),
    ...patternsWords(changes),
  ].filter((say) => say !== null);
  const read =
    says.length === 0
      ? ['Nothing in it is new.']
      : ['The table is read in.', ...says, 'Undo takes it back.'];
  return [...read, ...(encoding === 'Windows-1252' ? [ASSUMED] : [])].join(' ');
}

/**
 * Returns a sentence such as "3 numbers changed: 2 in Foot rail to side; 1 in Cross-side."
 * Semicolons separate the patterns, because their names may contain commas.
 */
function numberWords(cells: readonly Cell[]): string | null {
  const numbers = cells.filter((cell) => cell.of === 'number');
  const words = changedWords(numbers.length, 'number', 'numbers');
  if (words === null) return null;
  const places = PATTERNS.flatMap(({ id }) => {
    const { length } = numbers.filter(({ pattern }) => pattern === id);
    return length === 0 ? [] : [`${length} in ${patternOf(id).name}`];
  });
  return `${words.slice(0, -1)}: ${places.join('; ')}.`;
}

function changedWords(count: number, one: string, many: string): string | null {
  return count === 0 ? null : `${count} ${count === 1 ? one : many} changed.`;
}
