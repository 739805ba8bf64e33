/**
 * An invented measured chart: Harbour Lane's bar table as its instructor would note it after an evening
 * of test shots, to half a tenth. It differs a little from any table of the model.
 */

import { emptyState } from '../../src/charts/document/document.ts';
import {
  type ChartDocument,
  type MeasuredLine,
  type PatternId,
  toDecimal,
} from '../../src/charts/index.ts';
import { CONDITIONS } from '../../src/table/index.ts';

type Row = readonly [start: number, soft: number, medium: number, firm: number];

const ROWS = {
  'foot-to-side': [
    [1, 1, 1.05, 1.1],
    [2, 1.45, 1.65, 1.75],
    [3, 1.75, 1.95, 2.1],
    [4, 1.85, 2.2, 2.35],
    [6, 2.3, 2.5, 2.75],
    [8, 2.65, 2.75, 2.95],
  ],
  'foot-to-far-corner': [
    [2, 0.7, 0.8, 0.85],
    [3, 0.95, 1.05, 1.2],
    [4.5, 1.2, 1.35, 1.5],
    [6, 1.45, 1.6, 1.75],
    [8, 1.75, 1.8, 2],
  ],
  'cross-side': [
    [5, 4.5, 4.4, 4.35],
    [6, 4.9, 4.85, 4.7],
    [7, 5.4, 5.25, 5.1],
    [8, 5.9, 5.7, 5.45],
  ],
  'cross-corner': [
    [1, 0.55, 0.5, 0.45],
    [2, 1, 0.9, 0.8],
    [3, 1.4, 1.3, 1.15],
    [4, 1.9, 1.7, 1.5],
    [6, 2.9, 2.6, 2.25],
  ],
  'up-and-back': [
    [0.5, 2.2, 2.25, 2.4],
    [1, 2.45, 2.5, 2.6],
    [2, 2.95, 2.95, 3.1],
    [3, 3.45, 3.45, 3.5],
  ],
} as const satisfies Partial<Record<PatternId, readonly Row[]>>;

function lineOf(pattern: PatternId, [start, soft, medium, firm]: Row): Required<MeasuredLine> {
  return {
    pattern,
    start: toDecimal(start),
    soft: toDecimal(soft),
    medium: toDecimal(medium),
    firm: toDecimal(firm),
  };
}

export const MEASURED_PATTERNS = Object.keys(ROWS) as PatternId[];

/** Measured at all three speeds. */
export const MEASURED_LINES: readonly Required<MeasuredLine>[] = Object.entries(ROWS).flatMap(
  ([pattern, rows]) => rows.map((row) => lineOf(pattern as PatternId, row)),
);

export const MEASURED_BAR_TABLE: ChartDocument = {
  kind: 'throughline-chart',
  version: 2,
  id: 'harbour-lane-bar-table',
  name: 'Harbour Lane, 7 ft bar table',
  table: '7ft',
  startStep: toDecimal(0.5),
  printStep: toDecimal(0.05),
  basis: 'measured',
  earlier: [],
  revisions: [
    {
      number: 1,
      date: '2026-11-09',
      author: 'Harbour Lane instruction',
      why: 'Measured by the window, on the bar table as it plays in November.',
      ...emptyState(CONDITIONS['worn and slow']),
      patterns: MEASURED_PATTERNS,
      measured: MEASURED_LINES,
    },
  ],
};
