/** What is asked of a new chart, and the document that comes of it. */

import {
  type ChartDocument,
  type CsvRow,
  chartId,
  copyOf,
  type Decimal,
  isSameName,
  newChart,
  PATTERNS,
  type PatternId,
  toDecimal,
  withCsv,
} from '../../charts/index.ts';
import { CONDITIONS, type ConditionName, type TableSize } from '../../table/index.ts';
import type { Model } from '../state/model.ts';

export const ALL: readonly PatternId[] = PATTERNS.map(({ id }) => id);

/** A table of numbers, and the file's name. */
export interface ReadIn {
  readonly name: string;
  readonly rows: readonly CsvRow[];
}

export interface Form {
  readonly origin: 'computed' | 'empty' | 'table' | 'copy';
  readonly name: string;
  readonly author: string;
  readonly table: TableSize;
  readonly condition: ConditionName;
  readonly patterns: readonly PatternId[];
  readonly startStep: Decimal;
  readonly printStep: Decimal;
  /** Id of the chart that is copied. */
  readonly copied: string;
  /** The table that is read in; null until one is. */
  readonly read: ReadIn | null;
}

export type Change = (part: Partial<Form>) => void;

export function firstForm(model: Model): Form {
  const { document } = model.chart.peek();
  return {
    origin: 'computed',
    name: '',
    author: model.settings.peek().author,
    table: document.table,
    condition: 'club cloth',
    patterns: ALL.slice(0, 4),
    startStep: toDecimal(0.5),
    printStep: toDecimal(0.1),
    copied: document.id,
    read: null,
  };
}

/** What is missing or wrong, a sentence; null if nothing is. */
export function faultOf(form: Form, taken: readonly string[]): string | null {
  const { name, author, origin, patterns, read } = form;
  if (name.trim() === '') return 'Give the chart a name.';
  const other = taken.find((one) => isSameName(one, name));
  if (other !== undefined) return `There is a chart called ${other}: give this one another name.`;
  if (origin === 'table' && !read) return 'Choose the table of numbers.';
  if ((origin === 'computed' || origin === 'empty') && patterns.length === 0)
    return 'Choose a pattern at least.';
  return author.trim() === '' ? 'Type your name, so that others know whose chart it is.' : null;
}

const WHY: Readonly<Record<Form['origin'], string>> = {
  computed: 'Computed for the table as it is said to play.',
  empty: 'Begun empty, to be measured.',
  table: 'Read in from the table',
  copy: 'A copy of',
};

export function documentOf(form: Form, model: Model): ChartDocument {
  const charts = model.charts.peek();
  const name = form.name.trim();
  const id = chartId(
    name,
    { author: form.author.trim(), at: model.now() },
    charts.map((one) => one.id),
  );
  const signature = { date: model.date(), author: form.author.trim(), why: WHY[form.origin] };
  const copied = form.origin === 'copy' ? charts.find((one) => one.id === form.copied) : null;
  if (copied) {
    const why = `${WHY.copy} ${copied.name}.`;
    return copyOf(copied, { id, name }, { ...signature, why });
  }
  const { origin, table, condition, patterns, startStep, printStep, read } = form;
  const head = { id, name, table, condition: CONDITIONS[condition], startStep, printStep };
  if (origin !== 'table' || !read) {
    const basis = origin === 'computed' ? 'computed' : 'measured';
    return newChart({ ...head, basis, patterns }, signature);
  }
  const why = `${WHY.table} ${read.name}.`;
  const empty = newChart({ ...head, basis: 'measured', patterns: [] }, { ...signature, why });
  const [first] = empty.revisions;
  return { ...empty, revisions: [{ ...first, ...(withCsv(first, read.rows) ?? first) }] };
}
