/** Makes charts of the table that tonight's shots reveal. */

import {
  type Chart,
  type ChartDocument,
  chartId,
  inOrder,
  revise,
  type Signature,
  stateOn,
} from '../../charts/index.ts';
import type { Condition } from '../../table/index.ts';

/** Returns the chart's next revision, with its lines on a table in the given condition. */
export function revisedTo(chart: Chart, condition: Condition, signature: Signature): ChartDocument {
  return revise(chart.document, stateOn(chart, condition), signature);
}

/** The maximum length of a chart's name, in characters (src/charts/document/schema.ts). */
const LONGEST = 80;

/**
 * Returns a new chart in its first revision. It has the same lines and is named after the evening.
 * @param at milliseconds since 1970-01-01 UTC
 */
export function newTable(
  chart: Chart,
  condition: Condition,
  signature: Signature,
  at: number,
  others: readonly ChartDocument[],
): ChartDocument {
  const { document } = chart;
  const { date, author } = signature;
  const state = inOrder(stateOn(chart, condition));
  return {
    ...document,
    id: chartId(
      `table ${date}`,
      { author, at },
      others.map(({ id }) => id),
    ),
    name: freeName(document.name, date, others),
    earlier: [],
    revisions: [{ number: 1, ...signature, ...state }],
  };
}

const ORDINALS = ['', ', second', ', third', ', fourth', ', fifth', ', sixth'] as const;

/**
 * Returns a free name such as "Harbour Lane, 2026-11-25". The second one of an evening ends in ",
 * second".
 */
function freeName(name: string, date: string, others: readonly ChartDocument[]): string {
  const taken = new Set(others.map((one) => one.name));
  for (let n = 1; ; n++) {
    const suffix = `, ${date}${ORDINALS[n - 1] ?? `, number ${n}`}`;
    const free = `${name.slice(0, LONGEST - suffix.length)}${suffix}`;
    if (!taken.has(free)) return free;
  }
}
