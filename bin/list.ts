/** Makes the text of `--list`: patterns, tables and pocket sizes. */

import { PATTERNS, type Pattern } from '../src/charts/index.ts';
import { POCKET_SIZES, TABLES } from '../src/table/index.ts';
import {
  type Cell,
  type Format,
  formatCsv,
  formatJson,
  formatMarkdown,
  type Grid,
} from './format.ts';

interface Item {
  readonly option: 'pattern' | 'table' | 'pockets';
  /** The text that the option takes. */
  readonly value: string;
  readonly name: string;
  readonly says: string;
}

const INCH = 0.0254;

export function formatList(format: Format): string {
  if (format === 'json') return formatJson(ITEMS);
  return format === 'csv' ? formatCsv(GRID) : formatMarkdown(GRID);
}

const ITEMS: readonly Item[] = [
  ...PATTERNS.map(patternItem),
  ...Object.entries(TABLES).map(
    ([value, { length, width }]): Item => ({
      option: 'table',
      value,
      name: `${inches(length)} by ${inches(width)} in`,
      says: 'Playing surface, nose to nose.',
    }),
  ),
  ...Object.entries(POCKET_SIZES).map(
    ([value, { cornerMouth, sideMouth }]): Item => ({
      option: 'pockets',
      value,
      name: `corner ${inches(cornerMouth)} in, side ${inches(sideMouth)} in`,
      says: 'Mouths, tip to tip.',
    }),
  ),
];

const HEAD = ['option', 'value', 'name', 'says'] as const satisfies readonly (keyof Item)[];
const GRID: Grid = { head: HEAD, rows: ITEMS.map((item) => HEAD.map((key): Cell => item[key])) };

function patternItem({ id, name, path, start, starts, kicks }: Pattern): Item {
  const says = `${path} Starts ${starts.join('–')} on the ${start.rail} rail; kicks to the ${kicks.rail} rail.`;
  return { option: 'pattern', value: id, name, says };
}

function inches(metres: number): number {
  return Math.round((metres / INCH) * 1e4) / 1e4;
}
