export { carriedOver } from './document/carry-over.ts';
export {
  type Cell,
  type ConditionField,
  cellKey,
} from './document/cells.ts';
export { type ParsedCondition, parseCondition } from './document/condition-schema.ts';
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
export { applyDiff, type Change, changedCell, diffStates } from './document/diff.ts';
export { canonical, digestOf, fnv1a } from './document/digest.ts';
export {
  BASES,
  type Basis,
  type ChartDocument,
  type ChartState,
  emptyState,
  inOrder,
  isPatternId,
  type Level,
  type LevelEntry,
  type Levels,
  type LinePlace,
  lastRevision,
  levelOf,
  type MeasuredLine,
  PRIORITIES,
  type Priority,
  type PriorityEntry,
  patternOf,
  placeKey,
  prioritiesIn,
  priorityOf,
  type Remark,
  type Revision,
  remarkOn,
  settingOf,
  stateOf,
} from './document/document.ts';
export {
  beginDraft,
  type Draft,
  edit,
  endRun,
  isSameState,
  MOST_STEPS,
  redo,
  undo,
} from './document/draft.ts';
export {
  clearColumn,
  LEVEL_NAMES,
  renameLevel,
  setCondition,
  setLevel,
  setNumber,
  setOrder,
  setPattern,
  setPriority,
  setRemark,
  takeLines,
} from './document/edits.ts';
export { isolated } from './document/isolated.ts';
export { type Joined, joinCharts } from './document/join.ts';
export { type Merge, mergeCharts } from './document/merge.ts';
export { type Conflict, cellIn, mergeStates, type Side } from './document/merge-states.ts';
export {
  type Begun,
  chartId,
  copyOf,
  isSameName,
  type NewChart,
  newChart,
} from './document/new-chart.ts';
export { type OrderChange, orderChange } from './document/order-change.ts';
export { kickTo, PATTERNS, type Pattern, type PatternId } from './document/patterns.ts';
export {
  KEEP_MINE,
  mergeWhy,
  type Receipt,
  receiptOf,
  type Settling,
  settled,
  sideOf,
} from './document/received.ts';
export { digestsOf, restore, revise, type Signature, slim } from './document/revise.ts';
export {
  type ChartDraft,
  type ChartRefusal,
  type ParsedChart,
  parseChart,
  parseChartDraft,
  readChart,
} from './document/schema.ts';
export { startsFrom } from './document/starts.ts';
export { type Candidate, type Ordered, suggestOrder } from './document/suggest.ts';
export {
  CHART_SCHEMA,
  type ChartFileError,
  formatChartFile,
  LONGEST_FILE,
  type ReadFile,
  readChartFile,
} from './formats/chart-file.ts';
export { formatCompact, readCompact } from './formats/compact.ts';
export { CSV_DIALECTS, type CsvColumn, type CsvDialect, formatCsv } from './formats/csv.ts';
export { type ParsedCsv, parseCsv } from './formats/csv-reading.ts';
export { type CsvRow, measuredRows, printedRows, withCsv } from './formats/csv-rows.ts';
export {
  type AnchorEntry,
  type AnchorPlan,
  type AnchorSpan,
  anchorBound,
  anchorNumbers,
  anchorsOf,
  chooseAnchors,
  type Spared,
} from './numbers/anchors.ts';
export {
  type Chart,
  type ChartNumber,
  computeChart,
  type Gap,
  type Line,
  type LineNumber,
  type Shared,
} from './numbers/chart.ts';
export { anchorsIn, type PatternAnchors } from './numbers/chart-anchors.ts';
export { givenLines, sheetStarts } from './numbers/given.ts';
export { changedLines, type LineChange } from './numbers/line-changes.ts';
export { type Knot, monotoneCubic } from './numbers/monotone-cubic.ts';
export { isMeasured, launchOf, numberAt, numberOrWhy, numberTo } from './numbers/numbers.ts';
export { stateOn } from './numbers/on-condition.ts';
export { type ColumnNumber, type Outlier, outliers } from './numbers/outliers.ts';
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
export {
  computeSheet,
  type Drift,
  type GivenLine,
  type GivenNumber,
  inDiamonds,
  isWhole,
  type Sheet,
  type SheetLine,
  type SheetNumber,
  type SheetRequest,
} from './numbers/sheet.ts';
export {
  type PackedSolved,
  packSolved,
  type Solved,
  solvedOf,
  unpackSolved,
} from './numbers/solved.ts';
export { NUMBER_SOURCES, type NumberSource } from './numbers/source.ts';
export {
  type Counting,
  type CountStop,
  countFrom,
  cueFor,
  type StepCue,
  stepCues,
} from './numbers/step-cue.ts';
export {
  BANKS,
  THIN,
  VERDICTS,
  type Verdict,
  type VerdictKind,
  verdictOf,
  widthOf,
} from './numbers/verdict.ts';
