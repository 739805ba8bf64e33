/** A chart: the numbers of its patterns on one table, computed from a chart document. */

import type { Naming, Setting } from '../../table/index.ts';
import type { Decimal } from '../document/decimal.ts';
import {
  type ChartDocument,
  type ChartState,
  lastRevision,
  settingOf,
  stateOf,
} from '../document/document.ts';
import type { PatternId } from '../document/patterns.ts';
import type { Gap, Line } from './line.ts';
import { patternLines } from './pattern-lines.ts';
import { type Solved, solvedFrom } from './solved.ts';

export interface Chart {
  readonly document: ChartDocument;
  /** The state of the document's last revision, or a state that is being edited. */
  readonly state: ChartState;
  /** Which points its numbers name; the same for the whole chart. */
  readonly naming: Naming;
  readonly setting: Setting;
  readonly patterns: readonly PatternId[];
  readonly lines: readonly Line[];
  readonly gaps: readonly Gap[];
  /** The other chart with the memory that some of these lines use; null if there is none. */
  readonly shared: Shared | null;
}

/** Lines that share the memory of another chart's lines, because their numbers are the same. */
export interface Shared {
  /** The other chart's id. */
  readonly chart: string;
  /** The lines' places, by `placeKey`. */
  readonly lines: ReadonlySet<string>;
}

/**
 * Computes a chart's lines, each pattern's lines in the order of their starts. They are solved at
 * three speeds, or measured, as the document says. A line that lacks one of its numbers is a gap.
 * @param before solved numbers to reuse, if they belong to the same table and condition
 */
export function computeChart(
  document: ChartDocument,
  naming: Naming = 'through',
  shared: Shared | null = null,
  before: Solved | null = null,
): Chart {
  const state = stateOf(lastRevision(document));
  const setting = settingOf(document);
  const solved = before?.from === solvedFrom(document) ? before : null;
  const parts = state.patterns.map((id) =>
    patternLines({ document, state, setting, naming, solved }, id),
  );
  return {
    document,
    state,
    setting,
    naming,
    patterns: state.patterns,
    lines: parts.flatMap(({ lines }) => lines),
    gaps: parts.flatMap(({ gaps }) => gaps),
    shared,
  };
}

/** Returns the chart that a document would make if its last revision had a different state. */
export function chartWith(
  document: ChartDocument,
  state: ChartState,
  naming: Naming = 'through',
): Chart {
  const revision = { ...lastRevision(document), ...stateOf(state) };
  return computeChart({ ...document, revisions: [revision] }, naming);
}

/** Returns the chart's line from a start; null if it has none. */
export function lineFrom(chart: Chart, pattern: PatternId, start: Decimal): Line | null {
  return chart.lines.find((line) => line.pattern === pattern && line.start === start) ?? null;
}
