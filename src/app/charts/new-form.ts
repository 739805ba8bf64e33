/** The form for a new chart, and the document that is made from the form. */

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
  type Signature,
  toDecimal,
  withCsv,
} from '../../charts/index.ts';
import { CONDITIONS, type ConditionName, type TableSize } from '../../table/index.ts';
import type { Model } from '../state/model.ts';

export const ALL: readonly PatternId[] = PATTERNS.map(({ id }) => id);

/** A table of numbers read from a file, and the file's name. */
export interface TableFile {
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
  /** The id of the chart to copy. */
  readonly copied: string;
  /** The table to start from; null until one is read. */
  readonly file: TableFile | null;
}

export type Change = (part: Partial<Form>) => void;

export function firstForm(model: Pick<Model, 'chart' | 'settings'>): Form {
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
    file: null,
  };
}

/**
 * Returns a sentence that says what is missing or wrong; null if nothing is.
 * @param names the names of the charts on the device
 */
export function faultOf(form: Form, names: readonly string[]): string | null {
  const { name, author, origin, patterns, file } = form;
  if (name.trim() === '') return 'Give the chart a name.';
  const other = names.find((one) => isSameName(one, name));
  if (other !== undefined) return `There is a chart called ${other}: give this one another name.`;
  if (origin === 'table' && !file) return 'Choose the table of numbers.';
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

export function documentOf(
  form: Form,
  model: Pick<Model, 'charts' | 'now' | 'date'>,
): ChartDocument {
  const charts = model.charts.peek();
  const name = form.name.trim();
  const author = form.author.trim();
  const ids = charts.map((one) => one.id);
  const id = chartId(name, { author, at: model.now() }, ids);
  const signature = { date: model.date(), author, why: WHY[form.origin] };
  const copied = form.origin === 'copy' ? charts.find((one) => one.id === form.copied) : null;
  if (!copied) return newDocument(form, { id, name }, signature);
  return copyOf(copied, { id, name }, { ...signature, why: `${WHY.copy} ${copied.name}.` });
}

function newDocument(
  form: Form,
  called: Pick<ChartDocument, 'id' | 'name'>,
  signature: Signature,
): ChartDocument {
  const { origin, table, condition, patterns, startStep, printStep, file } = form;
  const head = { ...called, table, condition: CONDITIONS[condition], startStep, printStep };
  if (origin !== 'table' || !file) {
    const basis = origin === 'computed' ? 'computed' : 'measured';
    return newChart({ ...head, basis, patterns }, signature);
  }
  const why = `${WHY.table} ${file.name}.`;
  const empty = newChart({ ...head, basis: 'measured', patterns: [] }, { ...signature, why });
  const [first] = empty.revisions;
  return { ...empty, revisions: [{ ...first, ...(withCsv(first, file.rows) ?? first) }] };
}
