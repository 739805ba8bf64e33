/** Charts that are begun: computed for a table, empty to be measured, or a copy of another. */

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

export function newChart(made: NewChart, signature: Signature): ChartDocument {
  const { id, name, table, condition, basis, patterns, startStep, printStep } = made;
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

/** A chart of its own that begins as another is now; it has none of the other's history. */
export function copyOf(
  document: ChartDocument,
  { id, name }: Pick<NewChart, 'id' | 'name'>,
  { date, author, why }: Signature,
): ChartDocument {
  const state = inOrder(stateOf(lastRevision(document)));
  const first = { number: 1, date, author, why, ...state };
  return { ...document, id, name, earlier: [], revisions: [first] };
}

/** Long enough for a club's name and its table; the rest of 64 is for what makes it unique. */
const LONGEST = 44;
/** Of base 36: one in 2 · 10⁹ that two charts of one name have the same. */
const TOLD_APART = 6;

/** What no other chart of the same name has in common with one that is begun. */
export interface Begun {
  readonly author: string;
  /** Milliseconds since 1970. */
  readonly at: number;
}

/**
 * An id that says the name in a-z, 0-9 and hyphens, and is that of no other chart: of none here, and of
 * none that somebody else calls the same, whose chart could else never be received beside it.
 */
export function chartId(name: string, begun: Begun, taken: readonly string[]): string {
  const plain = name
    .normalize('NFKD')
    // Accents, which that takes off their letters (Unicode: combining diacritical marks).
    .replace(/[\u0300-\u036f]/g, '')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
    .slice(0, LONGEST)
    .replace(/^-+|-+$/g, '');
  const mark = fnv1a(utf16(`${name}\n${begun.author}\n${begun.at}`))
    .toString(36)
    .padStart(TOLD_APART, '0')
    .slice(-TOLD_APART);
  const base = `${plain === '' ? 'chart' : plain}-${mark}`;
  let id = base;
  for (let n = 2; taken.includes(id); n++) id = `${base}-${n}`;
  return id;
}

/** Charts are told apart by their names: capitals, spaces and how an accent is written tell nothing. */
export function isSameName(one: string, other: string): boolean {
  const plain = (name: string) => name.normalize('NFKC').trim().replace(/\s+/g, ' ').toLowerCase();
  return plain(one) === plain(other);
}
