/** Makes new charts: computed for a table, empty to be measured, or copied from another chart. */

import type { Condition, TableSize } from '../../table/index.ts';
import type { Decimal } from './decimal.ts';
import { fnv1a, utf16 } from './digest.ts';
import {
  type Basis,
  type ChartDocument,
  emptyState,
  inOrder,
  lastRevision,
  stateOf,
} from './document.ts';
import type { PatternId } from './patterns.ts';
import type { Signature } from './revise.ts';

export interface NewChart {
  readonly id: string;
  readonly name: string;
  readonly table: TableSize;
  readonly condition: Condition;
  readonly basis: Basis;
  readonly patterns: readonly PatternId[];
  readonly startStep: Decimal;
  readonly printStep: Decimal;
}

export function newChart(wanted: NewChart, signature: Signature): ChartDocument {
  const { id, name, table, condition, basis, patterns, startStep, printStep } = wanted;
  const { date, author, why } = signature;
  const state = inOrder({ ...emptyState(condition), patterns });
  return {
    kind: 'throughline-chart',
    version: 2,
    id,
    name,
    table,
    startStep,
    printStep,
    basis,
    earlier: [],
    revisions: [{ number: 1, date, author, why, ...state }],
  };
}

/**
 * Returns a separate chart that starts with another chart's current state and none of its history.
 */
export function copyOf(
  document: ChartDocument,
  { id, name }: Pick<NewChart, 'id' | 'name'>,
  { date, author, why }: Signature,
): ChartDocument {
  const state = inOrder(stateOf(lastRevision(document)));
  const first = { number: 1, date, author, why, ...state };
  return { ...document, id, name, earlier: [], revisions: [first] };
}

/**
 * The most characters of the name in an id: enough for a club and its table. The rest of the 64
 * characters makes the id unique.
 */
const LONGEST_NAME = 44;
/**
 * How many base-36 digits make an id unique. The chance that two charts of the same name share them
 * is 1 in 2 · 10⁹.
 */
const MARK_LENGTH = 6;

/** Who created a chart, and when. Together they differ for any two charts of the same name. */
export interface Creation {
  readonly author: string;
  /** The time of creation, in milliseconds since 1970. */
  readonly at: number;
}

/**
 * Returns an id made from the name, in a-z, 0-9 and hyphens. It differs from the ids of all charts
 * here. It also differs from the id of a chart to which somebody else gives the same name;
 * otherwise the player could not receive that chart and keep this one.
 */
export function chartId(name: string, creation: Creation, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    // Removes accents (combining diacritical marks), which NFKD splits from their letters.
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST_NAME)
    .replace(/^-+|-+$/g, '');
  const mark = fnv1a(utf16(`${name}\n${creation.author}\n${creation.at}`))
    .toString(36)
    .padStart(MARK_LENGTH, '0')
    .slice(-MARK_LENGTH);
  const base = `${plain === '' ? 'chart' : plain}-${mark}`;
  let id = base;
  for (let n = 2; taken.includes(id); n++) id = `${base}-${n}`;
  return id;
}

/**
 * Returns whether players would read two names as the same. Ignores case, spacing and Unicode form.
 */
export function isSameName(one: string, other: string): boolean {
  const plain = (name: string) => name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(one) === plain(other);
}
