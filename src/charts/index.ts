// document: chart documents, their revisions and edits, and how they are merged.

export { type Cell, type ConditionField, cellKey } from './document/cells.ts';
export { parseCondition } from './document/condition-schema.ts';
export {
  type Decimal,
  type DecimalError,
  formatDecimal,
  minus,
  parseDecimal,
  plus,
  roundTo,
  size,
  toDecimal,
  toNumber,
} from './document/decimal.ts';
export { HARBOUR_LANE, HARBOUR_LANE_BAR } from './document/demo.ts';
export { type Change, changedCell, diffStates } from './document/diff.ts';
export { canonical, digestOf, fnv1a } from './document/digest.ts';
export {
  type Basis,
  type ChartDocument,
  type ChartState,
  inOrder,
  type Level,
  type Levels,
  type LinePlace,
  lastRevision,
  levelOf,
  type MeasuredLine,
  PRIORITIES,
  type Priority,
  type PriorityEntry,
  placeKey,
  prioritiesIn,
  priorityOf,
  type Revision,
  remarkOn,
  stateOf,
} from './document/document.ts';
export { beginDraft, type Draft, edit, endRun, isSameState, redo, undo } from './document/draft.ts';
export {
  clearColumn,
  LEVEL_NAMES,
  renameLevel,
  setCondition,
  setLevel,
  setLines,
  setNumber,
  setOrder,
  setPattern,
  setPriority,
  setRemark,
} from './document/edits.ts';
export { isolated } from './document/isolated.ts';
export { joinCharts } from './document/join.ts';
export type { Merge } from './document/merge.ts';
export {
  type Conflict,
  carriedOver,
  cellIn,
  type Settling,
  type Side,
  sideOf,
} from './document/merge-states.ts';
export { chartId, copyOf, isSameName, newChart } from './document/new-chart.ts';
export { type OrderChange, orderChange } from './document/order-change.ts';
export {
  isPatternId,
  kickTo,
  PATTERNS,
  type Pattern,
  type PatternId,
  patternOf,
} from './document/patterns.ts';
export { type ChartDraft, parseChart, parseChartDraft, readChart } from './document/read.ts';
export {
  KEEP_MINE,
  mergeWhy,
  receiptOf,
  settled,
} from './document/received.ts';
export { digestsOf, restore, revise, type Signature, slim } from './document/revise.ts';
export { startsFrom } from './document/starts.ts';
export { type Candidate, type Ordered, suggestOrder } from './document/suggest.ts';

// numbers: the numbers of a document, their anchors and sheets, and counting between anchors.

export { anchorBound, anchorNumbers, anchorsIn, anchorsOf } from './numbers/anchors.ts';
export { type Chart, chartWith, computeChart, lineFrom } from './numbers/chart.ts';
export { givenLines, sheetRequest, sheetStarts } from './numbers/given.ts';
export {
  type Gap,
  type Line,
  type LineNumber,
  NUMBER_SOURCES,
  type NumberSource,
} from './numbers/line.ts';
export { changedLines, type LineChange } from './numbers/line-changes.ts';
export { monotoneCubic } from './numbers/monotone-cubic.ts';
export { isMeasured, launchOf, numberAt, numberOrWhy, numberTo } from './numbers/numbers.ts';
export { stateOn } from './numbers/on-condition.ts';
export { type AnchorNumber, interpolate } from './numbers/proportion.ts';
export {
  type Column,
  computedLines,
  type EditorCell,
  type EditorRow,
  editorRows,
  rowStarts,
  solvedColumn,
} from './numbers/rows.ts';
export { shiftAt, shiftFrom, unshifted } from './numbers/set-to-measured.ts';
export { sharedLines } from './numbers/shared.ts';
export { computeSheet, type Sheet, type SheetLine, type SheetNumber } from './numbers/sheet.ts';
export type { SheetRequest } from './numbers/sheet-aims.ts';
export { inDiamonds } from './numbers/sheet-arrival.ts';
export {
  type PackedSolved,
  packSolved,
  type Solved,
  solvedOf,
  unpackSolved,
} from './numbers/solved.ts';
export { type Counting, cueFor, type StepCue, stepCues } from './numbers/step-cue.ts';
export { VERDICTS, type Verdict, type VerdictKind, verdictOf, widthOf } from './numbers/verdict.ts';

// formats: charts as files, as links, and as tables for spreadsheets.

export {
  CHART_SCHEMA,
  formatChartFile,
  LONGEST_FILE,
  readChartFile,
} from './formats/chart-file.ts';
export { formatCompact, readCompact } from './formats/compact.ts';
export { type ParsedCsv, parseCsv } from './formats/csv-reading.ts';
export { type CsvRow, measuredRows, printedRows, withCsv } from './formats/csv-rows.ts';
export { CSV_DIALECTS, type CsvDialect, formatCsv } from './formats/csv-writing.ts';
