/** New charts: computed for a table, empty to be measured, or copied from another. */

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

/** A separate chart that starts with another's current state and none of its history. */
export function copyOf(
  document: ChartDocument,
  { id, name }: Pick<NewChart, 'id' | 'name'>,
  { date, author, why }: Signature,
): ChartDocument {
  const state = inOrder(stateOf(lastRevision(document)));
  const first = { number: 1, date, author, why, ...state };
  return { ...document, id, name, earlier: [], revisions: [first] };
}

/** Characters of the name: room for a club and its table. The rest of 64 makes the id unique. */
const LONGEST_NAME = 44;
/** Base-36 digits: a chance of 1 in 2 · 10⁹ that two charts of one name share them. */
const MARK_LENGTH = 6;

/** Together, these differ for any two charts of the same name. */
export interface Creation {
  readonly author: string;
  /** Milliseconds since 1970. */
  readonly at: number;
}

/**
 * An id made of the name, in a-z, 0-9 and hyphens, that no other chart has: none here, and none that
 * somebody else gives the same name, which could otherwise not be received beside this one.
 */
export function chartId(name: string, creation: Creation, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    // Accents, which NFKD splits from their letters (combining diacritical marks).
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

/** Whether players would read two names as the same: ignores case, spacing and Unicode form. */
export function isSameName(one: string, other: string): boolean {
  const plain = (name: string) => name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(one) === plain(other);
}
